/** How the program is started from its folder: what is printed to be copied has to begin with it. */
export const COMMAND = 'npx dummyrun';
