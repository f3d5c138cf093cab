/**
 * Would a model of the hand spare hand-cut dummies? Each cut is made once both ways, ± √3 standard deviations by itself;
 * from these a quadratic without products foretells every score of a dummy that is off in all cuts at once. As a control
 * variate (P. Glasserman, Monte Carlo Methods in Financial Engineering, 2004, 4.1, from memory) it would pay if the
 * variance of (works − foretold to work) were so much less than that of 'works' as the cuts it costs: at a fifth of 2,000
 * dummies, less than (400 − 2 d − 1) / 2,000 for d cuts.
 *
 *   node bench/hand-model.mjs [dummies=300]
 */
import { compileFigure } from '../dist/src/figure/figure.js';
import { patterns } from '../dist/src/figure/patterns/index.js';
import { parseFigure } from '../dist/src/figure/text/source.js';
import { HAND, sigmaOf } from '../dist/src/insight/hand/figure-tolerance.js';
import { Scorer } from '../dist/src/score/scorer.js';
import { stream } from '../dist/src/search/random.js';
import { example } from './examples.mjs';

const DUMMIES = Number(process.argv[2] ?? 300);
/** The outer points of the three-point rule of Gauss and Hermite, standard deviations. */
const OUT = Math.sqrt(3);

const figures = [
  ...patterns.map(({ name, text }) => [name, compileFigure(parseFigure(text, `${name}.yaml`))]),
  ...['heron', 'ferryman', 'tightrope', 'carrier'].map((name) => [name, example(name)]),
];
for (const [name, figure] of figures) {
  const scorer = new Scorer(figure);
  const template = figure.template(figure.start);
  const sigmas = template.cuts.map((cut) => sigmaOf(cut, HAND));
  const cut = (errors) =>
    scorer.scoreCut(
      template,
      Float64Array.from(sigmas, (sigma, i) => errors(i) * sigma),
      figure.start,
    );
  const drawn = cut(() => 0);
  const within = boundsOf(drawn, figure.wantsOf(figure.start));
  const centre = valuesOf(drawn);
  const ways = sigmas.map((_, k) => [OUT, -OUT].map((off) => valuesOf(cut((i) => (i === k ? off : 0)))));
  const foretold = (errors) =>
    centre.every((value, score) => {
      if (value === null) return true;
      let sum = value;
      ways.forEach(([more, less], k) => {
        if (more[score] === null || less[score] === null) return;
        const slope = (more[score] - less[score]) / (2 * OUT);
        const bend = (more[score] - 2 * value + less[score]) / (2 * OUT * OUT);
        sum += slope * errors[k] + bend * errors[k] ** 2;
      });
      return sum >= within[score][0] - 1e-9 && sum <= within[score][1] + 1e-9;
    });
  const random = stream(1, 'cut by hand');
  let works = 0;
  let model = 0;
  let apart = 0;
  for (let dummy = 0; dummy < DUMMIES; dummy++) {
    const errors = sigmas.map(() => random.normal());
    const truth = cut((i) => errors[i]).works;
    const guess = foretold(errors);
    works += Number(truth);
    model += Number(guess);
    apart += Number(truth !== guess);
  }
  const share = works / DUMMIES;
  const variance = share * (1 - share);
  const ofDifference = apart / DUMMIES - ((works - model) / DUMMIES) ** 2;
  const pays = (400 - 2 * sigmas.length - 1) / 2000;
  console.log(
    `  ${name.padEnd(20)} ${sigmas.length} cuts; works ${share.toFixed(2)}, foretold ${(model / DUMMIES).toFixed(2)}; variance of the difference ${
      variance === 0 ? 'beside none' : `${(ofDifference / variance).toFixed(2)} × that of dummies`
    }, would pay below ${pays.toFixed(2)}`,
  );
}

/** All limits and wants, null where not computed. */
function valuesOf({ limits, wants }) {
  return [...limits, ...wants].map(({ value }) => value);
}

/** Between what each of these must lie. */
function boundsOf({ limits }, wants) {
  return [
    ...limits.map(({ least, most }) => [least ?? -Infinity, most ?? Infinity]),
    ...wants.map(({ least, most, target, tolerance }) =>
      target === undefined
        ? [least ?? -Infinity, most ?? Infinity]
        : [target - tolerance, target + tolerance],
    ),
  ];
}
