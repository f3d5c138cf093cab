/** What keeps a study from running or from being saved, in words for the person who started it. */
export class StudyError extends Error {
  override name = 'StudyError';
}

const ELSEWHERE = 'Choose another folder with --out';
const MORE_ROOM = 'Free some room and try again: a command that has --resume goes on from what was scored';

/** What the system says, and what would help. */
const CAUSES: Record<string, readonly [cause: string, remedy: string]> = {
  ENOSPC: ['the disk is full', MORE_ROOM],
  EDQUOT: ['your share of the disk is used up', MORE_ROOM],
  EROFS: ['the disk can only be read', ELSEWHERE],
  EACCES: ['you may not write there', ELSEWHERE],
  EPERM: ['you may not write there', ELSEWHERE],
  ENOTDIR: ['part of that path is a file, not a folder', ELSEWHERE],
  EEXIST: ['a file of that name is in the way', ELSEWHERE],
  EISDIR: ['a folder of that name is in the way', 'Move it, or choose another folder with --out'],
  ENAMETOOLONG: ['the path is too long', ELSEWHERE],
  EFBIG: ['the file may not grow any further', 'Raise that limit, or choose another disk with --out'],
  EIO: ['the disk gives errors', 'Choose another with --out'],
  ELOOP: ['links there lead round in a circle', ELSEWHERE],
  EINVAL: ['such a name cannot be there', ELSEWHERE],
  EBUSY: ['another program holds the file open', 'Close it there'],
  EMFILE: ['too many files are open at once', "Raise that limit ('ulimit -n'), or give fewer --workers"],
  ERR_MODULE_NOT_FOUND: ['a file of the program is missing', "Build it again with 'npm run build'"],
  ENFILE: ['too many files are open on this machine', 'Close other programs, or give fewer --workers'],
};
/** No such file or folder: that of a folder that is being made, and that of one that there was a moment ago. */
const NOWHERE = ['no folder can be made there', ELSEWHERE] as const;
const GONE = ['the folder is gone: something has moved or deleted it meanwhile', 'Start again'] as const;

type SystemError = NodeJS.ErrnoException & { dest?: string };

/** Turns a fault of the file system into a StudyError that says what would help; any other error stays as it is. */
export function explained(error: unknown, path: string): unknown {
  const [cause, remedy] = causeOf(error) ?? [];
  if (cause === undefined) return error;
  const { code, path: file, dest } = error as SystemError;
  // What is in the way has a name of its own.
  const place = /^(ERR_FS_)?EISDIR$|^EEXIST$/.test(code ?? '') ? (dest ?? file ?? path) : path;
  return new StudyError(`Cannot write ${place}: ${cause}. ${remedy}.`, { cause: error });
}

/** What the system says, in words. */
export function troubleOf(error: NodeJS.ErrnoException): string {
  return causeOf(error)?.[0] ?? error.code ?? error.message;
}

function causeOf(error: unknown): readonly [cause: string, remedy: string] | undefined {
  if (!(error instanceof Error) || !('code' in error)) return undefined;
  const { code = '', syscall } = error as SystemError;
  if (code === 'ENOENT') return syscall === 'mkdir' ? NOWHERE : GONE;
  // Node refuses to remove a folder as a file by a code of its own.
  return CAUSES[code === 'ERR_FS_EISDIR' ? 'EISDIR' : code];
}
