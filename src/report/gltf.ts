import { Document, MathUtils, NodeIO, type vec3, type vec4 } from '@gltf-transform/core';
import type { Figure } from '../figure/figure.js';
import { POSE } from '../motion/pose.js';
import { layersOf } from '../view/layers.js';
import { Motion } from '../view/motion.js';
import { slabOf } from '../view/slab.js';

/** How long the opening takes from 0° to 180°, seconds. */
const SECONDS = 4;
/** glTF is in metres with y upwards; our world is in mm with z upwards: turned by −90° about x. */
const SCALE = 0.001;
const Z_TO_Y: vec4 = [-Math.SQRT1_2, 0, 0, Math.SQRT1_2];
/** Cream card, as linear red, green, blue, opacity; the pages are whiter. */
const CARD: vec4 = [0.86, 0.76, 0.58, 1];
const PAGE: vec4 = [0.98, 0.95, 0.88, 1];

/**
 * One candidate as a file of 3D programs (glTF 2.0, binary): each panel a node of its own name, with thickness; the
 * animation 'opening' opens it from shut, or from where it locks, in 4 s for 180°. At rest it is open.
 * @throws CannotBuild
 */
export async function glb(figure: Figure, vector: Float64Array): Promise<Uint8Array> {
  const motion = new Motion(figure, vector);
  const { assembly, opening } = motion;
  const document = new Document();
  const buffer = document.createBuffer();
  const root = document.createNode(figure.name).setRotation(Z_TO_Y).setScale([SCALE, SCALE, SCALE]);
  document.getRoot().setDefaultScene(document.createScene(figure.name).addChild(root));
  const [page, card] = [PAGE, CARD].map((colour, i) =>
    document
      .createMaterial(i === 0 ? 'page' : 'card')
      .setBaseColorFactor(colour)
      .setMetallicFactor(0)
      .setRoughnessFactor(0.95),
  );
  const array = (
    type: 'SCALAR' | 'VEC3' | 'VEC4',
    numbers: Float32Array<ArrayBuffer> | Uint32Array<ArrayBuffer>,
  ) => document.createAccessor().setType(type).setArray(numbers).setBuffer(buffer);

  const frames = Array.from({ length: opening.count }, (_, i) => opening.count - 1 - i);
  const begin = opening.pageAngles[frames[0]];
  const times = array(
    'SCALAR',
    Float32Array.from(frames, (frame) => ((opening.pageAngles[frame] - begin) / 180) * SECONDS),
  );
  const animation = document.createAnimation('opening');
  const layers = layersOf(assembly);

  assembly.panels.forEach((panel, k) => {
    const slab = slabOf(panel, layers[k].low, layers[k].high);
    const shape = document
      .createPrimitive()
      .setAttribute('POSITION', array('VEC3', slab.positions))
      .setAttribute('NORMAL', array('VEC3', slab.normals))
      .setIndices(array('SCALAR', slab.indices))
      .setMaterial(k < 2 ? page : card);
    const { translations, rotations } = path(motion, k, frames);
    const node = document
      .createNode(panel.name)
      .setMesh(document.createMesh(panel.name).addPrimitive(shape))
      .setTranslation([...translations.subarray(-3)] as vec3)
      .setRotation([...rotations.subarray(-4)] as vec4)
      .setExtras({ piece: panel.piece });
    root.addChild(node);
    for (const [kind, output] of [
      ['translation', array('VEC3', translations)],
      ['rotation', array('VEC4', rotations)],
    ] as const) {
      const sampler = document.createAnimationSampler().setInput(times).setOutput(output);
      const channel = document
        .createAnimationChannel()
        .setTargetNode(node)
        .setTargetPath(kind)
        .setSampler(sampler);
      animation.addSampler(sampler).addChannel(channel);
    }
  });
  return new NodeIO().writeBinary(document);
}

/** Where a panel is at each frame: translations, and rotations as unit quaternions that never jump to their opposite. */
function path(
  { opening }: Motion,
  panel: number,
  frames: readonly number[],
): { translations: Float32Array<ArrayBuffer>; rotations: Float32Array<ArrayBuffer> } {
  const translations = new Float32Array(3 * frames.length);
  const rotations = new Float32Array(4 * frames.length);
  const move: vec3 = [0, 0, 0];
  const turn: vec4 = [0, 0, 0, 1];
  const scale: vec3 = [1, 1, 1];
  let last: vec4 = [0, 0, 0, 1];
  frames.forEach((frame, i) => {
    const [a, b, c, x, d, e, f, y, g, h, k, z] = opening
      .frame(frame)
      .subarray(panel * POSE, (panel + 1) * POSE);
    MathUtils.decompose([a, d, g, 0, b, e, h, 0, c, f, k, 0, x, y, z, 1], move, turn, scale);
    const dot = turn[0] * last[0] + turn[1] * last[1] + turn[2] * last[2] + turn[3] * last[3];
    last = turn.map((part) => (dot < 0 ? -part : part)) as vec4;
    translations.set(move, 3 * i);
    rotations.set(last, 4 * i);
  });
  return { translations, rotations };
}
