import { config } from 'zod';

/**
 * The page's policy forbids making code from text. Zod would try whether it can, which the browser reports as an error;
 * this module must be imported before any that makes a schema.
 */
config({ jitless: true });
