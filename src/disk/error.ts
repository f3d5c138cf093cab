/** What keeps a study from running or from being saved, in words for the person who started it. */
export class StudyError extends Error {
  override name = 'StudyError';
}

const CAUSES: Record<string, string> = {
  ENOSPC: 'the disk is full. Free some room and try again; what was scored is kept for --resume',
  EDQUOT:
    'your share of the disk is used up. Free some room and try again; what was scored is kept for --resume',
  EROFS: 'the disk can only be read. Choose another folder with --out',
  EACCES: 'you may not write there. Choose another folder with --out',
  EPERM: 'you may not write there. Choose another folder with --out',
  ENOENT: 'no folder can be made there. Choose another with --out',
  ENOTDIR: 'part of that path is a file, not a folder. Choose another folder with --out',
  EEXIST: 'a file of that name is in the way. Choose another folder with --out',
  EISDIR: 'a folder of that name is in the way. Move it, or choose another folder with --out',
  ENAMETOOLONG: 'the path is too long. Choose another folder with --out',
  EFBIG: 'the file may not grow any further. Raise that limit, or choose another disk with --out',
  EIO: 'the disk gives errors. Choose another with --out',
  ELOOP: 'links there lead round in a circle. Choose another folder with --out',
  EINVAL: 'such a name cannot be there. Choose another folder with --out',
  EBUSY: 'another program holds the file open. Close it there',
};

/** Turns a fault of the file system into a StudyError that says what would help; any other error stays as it is. */
export function explained(error: unknown, path: string): unknown {
  if (!(error instanceof Error) || !('code' in error)) return error;
  const cause = CAUSES[String(error.code)];
  return cause === undefined ? error : new StudyError(`Cannot write ${path}: ${cause}.`, { cause: error });
}
