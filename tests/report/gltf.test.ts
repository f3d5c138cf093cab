import { validateBytes } from 'gltf-validator';
import { AnimationMixer, Vector3 } from 'three';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { beforeAll, describe, expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';
import { glb } from '../../src/report/gltf.js';
import { Scorer } from '../../src/score/scorer.js';

const figure = compileFigure(readFigure('examples/ferryman.yaml'));
let bytes: Uint8Array;
beforeAll(async () => {
  bytes = await glb(figure, figure.start);
});

test('is valid glTF 2.0: the validator of the Khronos Group finds no error and nothing to warn of', async () => {
  const report = await validateBytes(bytes);
  expect(report.issues.messages.filter(({ severity }) => severity < 2)).toEqual([]);
  expect(report.info.version).toBe('2.0');
});

describe('as three reads it', () => {
  const read = async () => {
    const copy = bytes.slice().buffer;
    return await new GLTFLoader().parseAsync(copy, '');
  };

  test('each panel is a node of its own name', async () => {
    const { scene } = await read();
    const names: string[] = [];
    scene.traverse(({ userData }) => {
      if (typeof userData.name === 'string') names.push(userData.name);
    });
    const { panels } = new Scorer(figure).poses(figure.start);
    expect(names.sort()).toEqual(expect.arrayContaining(panels.map(({ name }) => name).sort()));
  });

  test('no panel turns the long way round between two frames: its quaternions never jump to their opposite', async () => {
    const { animations } = await read();
    const turns = animations[0].tracks.filter(({ name }) => name.endsWith('.quaternion'));
    expect(turns.length).toBeGreaterThan(10);
    for (const { values } of turns)
      for (let i = 4; i < values.length; i += 4) {
        const dot = [0, 1, 2, 3].reduce((sum, k) => sum + values[i + k] * values[i - 4 + k], 0);
        expect(dot).toBeGreaterThan(0);
      }
  });

  test('its animation opens the page: every panel stands where the kernel puts it, in metres with y up', async () => {
    const { scene, animations, parser } = await read();
    expect(animations.map(({ name }) => name)).toEqual(['opening']);
    const { panels, frames } = new Scorer(figure).poses(figure.start);
    const mixer = new AnimationMixer(scene);
    mixer.clipAction(animations[0]).play();
    for (const { pageAngle, poses } of frames.filter(
      ({ pageAngle }) => pageAngle > 0 && pageAngle % 30 === 0,
    )) {
      // 180° would be the clip's end, where it begins again.
      mixer.setTime(Math.min((pageAngle / 180) * 4, 3.99999));
      scene.updateMatrixWorld(true);
      for (const [k, { name, outline }] of panels.entries()) {
        const node = await parser.getDependency(
          'node',
          parser.json.nodes.findIndex((n: { name: string }) => n.name === name),
        );
        const found = scene.getObjectByName(node.name);
        const [x, y] = outline[1];
        const p = poses[k];
        const world = [0, 4, 8].map((r) => (p[r] * x + p[r + 1] * y + p[r + 3]) / 1000);
        const at = found?.localToWorld(new Vector3(x, y, 0)) ?? new Vector3(Number.NaN);
        for (const [got, wanted] of [
          [at.x, world[0]],
          [at.y, world[2]],
          [at.z, -world[1]],
        ])
          expect(Math.abs(got - wanted)).toBeLessThan(2e-5);
      }
    }
  });
});
