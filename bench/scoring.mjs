/**
 * What one candidate costs, in processor time of one core: building it, its motion, the clash test, the whole score.
 * Figures that lock cost less, so all of them are plain samples, the same each time.
 */
import { CannotBuild } from '../dist/src/motion/cannot-build.js';
import { Opening } from '../dist/src/motion/opening.js';
import { ClashTest } from '../dist/src/score/clash/clash.js';
import { Scorer } from '../dist/src/score/scorer.js';
import { cpu, example, samples } from './examples.mjs';
import { countNearPairs, tightPair } from './near-pairs.mjs';

const COUNT = { ferryman: 600, heron: 1500, tightrope: 60 };
/** So many are scored before any is timed, so that V8 has compiled what is hot. */
const WARM = { ferryman: 2400, heron: 4500, tightrope: 240 };
/** What a rotation and a translation cost at least: a pose's 12 numbers, each a sum of three products and one more. */
const tight = tightLoop();

for (const [name, count] of Object.entries(COUNT)) {
  const figure = example(name);
  const vectors = samples(figure, count);
  const scorer = new Scorer(figure);
  const opening = new Opening();
  const clash = new ClashTest();
  const run = (assembly) => opening.run(assembly, figure.opening.step);
  for (let i = 0; i < WARM[name]; i++) scorer.score(vectors[i % count]);
  // First of all, with no more in memory than a worker has.
  const whole =
    cpu(() => {
      for (const vector of vectors) scorer.score(vector);
    }) / count;

  const assemblies = vectors.flatMap((vector) => {
    try {
      return [figure.build(vector)];
    } catch (error) {
      if (error instanceof CannotBuild) return [];
      throw error;
    }
  });
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
  let pairs = 0;
  const near = [];
  for (const assembly of assemblies) {
    run(assembly);
    pairs += countNearPairs(assembly, opening, near);
  }
  const each = (ms) => `${(ms / assemblies.length).toFixed(3)} ms`;
  const times = (ns, least) =>
    `${ns.toFixed(0)} ns, ${(ns / least).toFixed(1)} × a tight loop's ${least.toFixed(0)}`;
  console.log(`  ${name}, ${assemblies[0].panels.length} panels`);
  console.log(`    build   ${build.toFixed(3)} ms`);
  console.log(`    motion  ${each(motion)}: a panel and page angle ${times((motion * 1e6) / frames, tight)}`);
  console.log(
    `    clash   ${each(both - motion)}: a near pair (${Math.round(pairs / assemblies.length)} of them) ${times(((both - motion) * 1e6) / pairs, tightPair(near))}`,
  );
  console.log(`    whole   ${whole.toFixed(3)} ms: ${Math.round(1000 / whole)} candidates a second and core`);
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
  const rounds = 50_000;
  const turn = () => {
    for (let i = 0; i < a.length; i += 4) {
      const x = a[i];
      const y = a[i + 1];
      const z = a[i + 2];
      out[i] = x * b[0] + y * b[4] + z * b[8];
      out[i + 1] = x * b[1] + y * b[5] + z * b[9];
      out[i + 2] = x * b[2] + y * b[6] + z * b[10];
      out[i + 3] = x * b[3] + y * b[7] + z * b[11] + a[i + 3];
    }
  };
  for (let round = 0; round < 1000; round++) turn();
  const ms = cpu(() => {
    for (let round = 0; round < rounds; round++) turn();
  });
  return (ms * 1e6) / (rounds * 64);
}
