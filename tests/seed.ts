import fc from 'fast-check';

// Random tests draw the same figures at every run, so that a fault found is a fault that stays; `SEED=… npm test` draws others.
fc.configureGlobal({ seed: Number(process.env.SEED ?? 1) });
