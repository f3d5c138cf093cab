import { threadId } from 'node:worker_threads';

/** Answers in which thread it runs and what it was told with the parcel; throws at a number below 0. */
export default function which({ vectors, data }) {
  return vectors.map(([value]) => {
    if (value < 0) throw new Error('below 0');
    return `${data} in thread ${threadId}`;
  });
}
