// Must stay the first import: see there.
import '../../report/live/no-eval.js';
import { EditFault } from '../../edit/edit-fault.js';
import { InputError } from '../../figure/text/input-error.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { besideOf } from './beside.js';
import { type Candidate, Kernel, motionOf, scoreOf } from './kernel.js';
import type { Asked, Sent } from './sent.js';

/** The kernel in a thread of its own: the page never stops. */
const kernel = new Kernel();

const tell = (sent: Sent, ...transfer: Transferable[]) => postMessage(sent, { transfer });

addEventListener('message', ({ data }: MessageEvent<Asked>) => {
  try {
    answer(data);
  } catch (error) {
    const { id } = data;
    if (error instanceof InputError)
      tell({ tell: 'fault', id, message: error.message, line: error.line, column: error.column });
    else if (error instanceof EditFault || error instanceof CannotBuild)
      tell({ tell: 'stuck', id, why: error.message });
    else {
      // Whatever else goes wrong, the next question is answered.
      tell({ tell: 'stuck', id, why: `the figure could not be worked out: ${String(error)}` });
    }
  }
});

function answer(asked: Asked): void {
  const { id } = asked;
  if (asked.ask === 'text') {
    kernel.read(asked.text, asked.file, asked.drawings);
    show(id, { figure: kernel.figure, vector: kernel.figure.start });
  } else if (asked.ask === 'read') kernel.read(asked.text, asked.file, asked.drawings, asked.reading);
  else if (asked.ask === 'try') show(id, kernel.changed(asked.changes));
  else if (asked.ask === 'move')
    tell({
      tell: 'moved',
      id,
      reading: kernel.reading,
      ...kernel.move(asked.paths, asked.values, asked.keep),
    });
  else if (asked.ask === 'rest') {
    tell(kernel.rest(id));
    // So that the first drag need not wait for it.
    kernel.findTies();
  } else if (asked.ask === 'flat') tell(kernel.flat(id));
  else if (asked.ask === 'beside') tell(besideOf(id, kernel));
  else tell({ tell: 'starters', id, on: asked.on, starters: kernel.starters(asked.on) });
}

/** The motion first; the score when it comes. */
function show(id: number, candidate: Candidate): void {
  try {
    const motion = motionOf(id, candidate, kernel.source);
    tell(motion, motion.frames.buffer);
  } catch (error) {
    if (!(error instanceof CannotBuild)) throw error;
  }
  tell(scoreOf(id, candidate));
}
