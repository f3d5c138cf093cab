/**
 * What one candidate costs, in processor time of one core: building it, its motion, the clash test, the whole score.
 * Figures that lock cost less, so all of them are plain samples, the same each time.
 */
import { CannotBuild } from '../dist/src/motion/cannot-build.js';
import { Opening } from '../dist/src/motion/opening.js';
import { ClashTest } from '../dist/src/score/clash.js';
import { Scorer } from '../dist/src/score/scorer.js';
import { cpu, example, samples } from './examples.mjs';

const COUNT = { ferryman: 600, heron: 1500, tightrope: 60 };
/** What a rotation and a translation cost at least: a pose's 12 numbers, each a sum of three products and one more. */
const tight = tightLoop();

for (const [name, count] of Object.entries(COUNT)) {
  const figure = example(name);
  const vectors = samples(figure, count);
  const scorer = new Scorer(figure);
  const opening = new Opening();
  const clash = new ClashTest();
  const assemblies = vectors.flatMap((vector) => {
    try {
      return [figure.build(vector)];
    } catch (error) {
      if (error instanceof CannotBuild) return [];
      throw error;
    }
  });
  const run = (assembly) => opening.run(assembly, figure.opening.step, figure.limits.give);
  for (const vector of vectors.slice(0, count / 3)) scorer.score(vector);

  const build =
    cpu(() => {
      for (const vector of vectors) attempt(() => figure.build(vector));
    }) / count;
  let frames = 0;
  const motion = cpu(() => {
    for (const assembly of assemblies) {
      run(assembly);
      frames += opening.count * assembly.panels.length;
    }
  });
  const both = cpu(() => {
    for (const assembly of assemblies) {
      run(assembly);
      clash.run(assembly, opening, figure.limits.press);
    }
  });
  const whole =
    cpu(() => {
      for (const vector of vectors) scorer.score(vector);
    }) / count;
  const each = (ms) => `${(ms / assemblies.length).toFixed(3)} ms`;
  console.log(
    `  ${name.padEnd(10)} ${assemblies[0].panels.length} panels: build ${build.toFixed(3)} ms, motion ${each(motion)} (${((motion * 1e6) / frames).toFixed(0)} ns a panel and page angle; ${((motion * 1e6) / frames / tight).toFixed(1)} × the tight loop), clash ${each(both - motion)}, whole score ${whole.toFixed(3)} ms: ${Math.round(1000 / whole)} candidates a second and core`,
  );
}

function attempt(work) {
  try {
    work();
  } catch (error) {
    if (!(error instanceof CannotBuild)) throw error;
  }
}

/** Nanoseconds to multiply one pose by another, over and over. */
function tightLoop() {
  const a = Float64Array.from({ length: 12 * 64 }, (_, i) => Math.sin(i));
  const b = Float64Array.from({ length: 12 }, (_, i) => Math.cos(i));
  const out = new Float64Array(12 * 64);
  const rounds = 20_000;
  const ms = cpu(() => {
    for (let round = 0; round < rounds; round++)
      for (let i = 0; i < a.length; i += 12)
        for (let r = 0; r < 12; r += 4)
          for (let c = 0; c < 4; c++)
            out[i + r + c] =
              a[i + r] * b[c] +
              a[i + r + 1] * b[4 + c] +
              a[i + r + 2] * b[8 + c] +
              (c === 3 ? a[i + r + 3] : 0);
  });
  return (ms * 1e6) / (rounds * 64);
}
