import * as z from 'zod';
import { isPlain } from '../text/plain-text.js';

const LONGEST_NAME = 60;

/** A name that can be shown and printed: no control characters, no blanks around it. */
export const label = () =>
  z
    .string({ error: 'a name' })
    .refine((text) => text.length > 0 && text.length <= LONGEST_NAME && text === text.trim(), {
      error: `a name of 1 to ${LONGEST_NAME} characters, without blanks around it`,
    })
    .refine((text) => isPlain(text) && !/\p{C}/u.test(text), { error: 'a name without control characters' });
