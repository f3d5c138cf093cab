// Must stay the first import: see there.
import '../../report/live/no-eval.js';
import { Answerer } from './answerer.js';
import type { Asked } from './sent.js';

/** The kernel in a thread of its own: the page never stops. */
const answerer = new Answerer((sent, ...transfer) => postMessage(sent, { transfer }));

addEventListener('message', ({ data }: MessageEvent<Asked>) => answerer.answer(data));
