import { createHash } from 'node:crypto';
import * as z from 'zod';
import { scoringHash, version } from '../disk/root.js';

/** What must be alike on two machines for them to score alike, to the last bit. */
export const likeness = z.strictObject({
  /** Of the program. */
  version: z.string().regex(/^[\w.+-]{1,40}$/),
  /** The major number of Node. */
  node: z.int().min(0).max(9999),
  /** SHA-256 of what a worker thread runs. */
  kernel: z.string().regex(/^[0-9a-f]{64}$/),
  /** SHA-256 of what the functions of this machine give. */
  functions: z.string().regex(/^[0-9a-f]{64}$/),
});
export type Likeness = z.infer<typeof likeness>;

/** The likeness of this machine. */
export function ownLikeness(): Likeness {
  return {
    version: version(),
    node: Number(process.versions.node.split('.')[0]),
    kernel: scoringHash(),
    functions: functionsHash(),
  };
}

/** Why another machine may score otherwise than this one; null where both are alike. */
export function whyUnlike(other: Likeness, own: Likeness): string | null {
  if (other.version !== own.version) return `it runs version ${other.version}, this is ${own.version}`;
  if (other.node !== own.node) return `it runs Node ${other.node}, this is Node ${own.node}`;
  if (other.kernel !== own.kernel) return 'its scoring was built from other sources';
  if (other.functions !== own.functions) return 'its sines and roots differ in the last bit';
  return null;
}

/** One word for a likeness: queues of unlike machines have nothing in common. */
export const markOf = (of: Likeness): string =>
  createHash('sha256')
    .update([of.version, of.node, of.kernel, of.functions].join('\n'))
    .digest('hex')
    .slice(0, 24);

/** ECMAScript leaves the last bit of these to the engine, and compilers for other processors may round otherwise. */
const FUNCTIONS = ['sin', 'cos', 'tan', 'asin', 'acos', 'atan', 'exp', 'log', 'cbrt', 'sqrt'] as const;

function functionsHash(): string {
  const values: number[] = [];
  for (let i = 1; i <= 200; i++) {
    const x = i / 201;
    for (const name of FUNCTIONS) values.push(Math[name](x));
    values.push(Math.atan2(x, 1 - 2 * x), Math.hypot(x, 1, 3 * x), x ** (7 * x), Math.sin(50 * x));
  }
  return createHash('sha256').update(Float64Array.from(values)).digest('hex');
}
