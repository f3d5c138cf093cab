/** What keeps a study from running or from being saved, in words for the person who started it. */
export class StudyError extends Error {
  override name = 'StudyError';
}

/** What would do where something can't be written, of a command that has --out. */
const ELSEWHERE = 'choose another folder with --out';
const MORE_ROOM = 'free some room and try again: a command that has --resume goes on from what was scored';
/** Stands for another place. */
const MOVE = 'another place';

/** What the system says, and what would help, one or the other. */
const CAUSES: Record<string, readonly [cause: string, ...remedies: string[]]> = {
  ENOSPC: ['the disk is full', MORE_ROOM],
  EDQUOT: ['your share of the disk is used up', MORE_ROOM],
  EROFS: ['the disk can only be read', MOVE],
  EACCES: ['you may not write there', MOVE],
  EPERM: ['you may not write there', MOVE],
  ENOTDIR: ['part of that path is a file, not a folder', MOVE],
  EEXIST: ['a file of that name is in the way', MOVE],
  EISDIR: ['a folder of that name is in the way', 'move it', MOVE],
  ENAMETOOLONG: ['the path is too long', MOVE],
  EFBIG: ['the file may not grow any further', 'raise that limit', MOVE],
  EIO: ['the disk gives errors', MOVE],
  ELOOP: ['links there lead round in a circle', MOVE],
  EINVAL: ['such a name cannot be there', MOVE],
  EBUSY: ['another program holds the file open', 'close it there'],
  EMFILE: ['too many files are open at once', "raise that limit ('ulimit -n')", 'give fewer --workers'],
  ERR_MODULE_NOT_FOUND: ['a file of the program is missing', "build it again with 'npm run build'"],
  ENFILE: ['too many files are open on this machine', 'close other programs', 'give fewer --workers'],
};
/** No such file or folder: that of a folder that is being made, and that of one that there was a moment ago. */
const NOWHERE = ['no folder can be made there', MOVE] as const;
const GONE = ['the folder is gone: something has moved or deleted it meanwhile', 'start again'] as const;

type SystemError = NodeJS.ErrnoException & { dest?: string };

/**
 * Turns a fault of the file system into a StudyError that says what would help; any other error stays as it is.
 * @param elsewhere how to have it somewhere else
 */
export function explained(error: unknown, path: string, elsewhere = ELSEWHERE): unknown {
  const [cause, ...remedies] = causeOf(error) ?? [];
  if (cause === undefined) return error;
  const { code, path: file, dest } = error as SystemError;
  // What is in the way has a name of its own.
  const place = /^(ERR_FS_)?EISDIR$|^EEXIST$/.test(code ?? '') ? (dest ?? file ?? path) : path;
  const remedy = remedies.map((each) => (each === MOVE ? elsewhere : each)).join(', or ');
  const sentence = remedy.charAt(0).toUpperCase() + remedy.slice(1);
  return new StudyError(`Cannot write ${place}: ${cause}. ${sentence}.`, { cause: error });
}

/** What the system says, in words. */
export function troubleOf(error: NodeJS.ErrnoException): string {
  return causeOf(error)?.[0] ?? error.code ?? error.message;
}

function causeOf(error: unknown): readonly [cause: string, ...remedies: string[]] | undefined {
  if (!(error instanceof Error) || !('code' in error)) return undefined;
  const { code = '', syscall } = error as SystemError;
  if (code === 'ENOENT') return syscall === 'mkdir' ? NOWHERE : GONE;
  // Node refuses to remove a folder as a file by a code of its own.
  return CAUSES[code === 'ERR_FS_EISDIR' ? 'EISDIR' : code];
}
