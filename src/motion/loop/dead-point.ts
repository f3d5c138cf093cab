import { zeros } from '../../geometry/numbers.js';
import { factor, logRootDeterminant } from './cholesky.js';
import type { Strain } from './strain.js';

/**
 * Notices when a loop passes a dead point: a place where its joints leave a free panel a way to move although the
 * driven ones stand still, so that it may go on either way.
 *
 * With all play taken up, let J be what the joints hold, by the free panels' unknowns. The root g of det JᵀJ is
 * |det J| where J is square, and det J changes sign at a dead point: seen over the page angle, g then comes down
 * straight to 0 and goes up again, a V. Where there are more equations than unknowns det JᵀJ is a sum of squares of
 * minors: g dips but does not turn over, unless so sharply that the dip lies within one step.
 *
 * From g two frames ago and one frame ago, the line through both foretells det J now, up to its sign; when that has
 * changed and −g fits it much better than g does, a dead point lies between the two frames, or on the earlier one.
 *
 * A loop that locks stays on a dead point (a limb pulled straight) until it comes free: g is then next to nothing, and
 * grows at once a hundredfold. A loop that starts on one has its way from the drawing, or from the maker's word.
 */
export class DeadPoints {
  private readonly factored: Float64Array;
  private logBefore = Number.NaN;
  private logLast = Number.NaN;
  private logMost = Number.NEGATIVE_INFINITY;

  constructor(private readonly strain: Strain) {
    this.factored = zeros(strain.unknowns * strain.unknowns);
  }

  /** Forgets the frames so far. */
  start(): void {
    this.logBefore = Number.NaN;
    this.logLast = Number.NaN;
    this.logMost = Number.NEGATIVE_INFINITY;
  }

  /** @returns whether the loop passed a dead point on its way from the last frame to these poses */
  passed(poses: Float64Array): boolean {
    const { strain, factored } = this;
    strain.measure(poses, true);
    const held = factor(strain.hessian, strain.starts, strain.unknowns, FLOOR, factored);
    const log = held ? logRootDeterminant(factored, strain.unknowns) : Number.NaN;
    // In units of the last frame's g, so that no product of small numbers underflows.
    const foretold = 2 - Math.exp(this.logBefore - this.logLast);
    const g = Math.exp(log - this.logLast);
    // Each is false while any of the frames before is not known.
    const turnedOver = foretold < -0.1 && Math.abs(foretold + g) < 0.3 * Math.abs(foretold - g);
    const cameFree = Math.min(log, this.logMost) - this.logLast > HUNDREDFOLD;
    this.logBefore = this.logLast;
    this.logLast = log;
    if (log > this.logMost) this.logMost = log;
    return turnedOver || cameFree;
  }
}

/** Added to the diagonal, so that a freedom that the loop always has counts as a constant. */
const FLOOR = 1e-10;
const HUNDREDFOLD = Math.log(100);
