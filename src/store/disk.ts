import {
  copyFile,
  link,
  mkdir,
  open,
  readdir,
  readFile,
  realpath,
  rename,
  stat,
  unlink,
  writeFile,
} from 'node:fs/promises';

/** The file calls the store makes, gathered so that tests can let each of them fail. */
export const DISK = {
  copyFile,
  link,
  mkdir,
  open,
  readdir,
  readFile,
  realpath,
  rename,
  stat,
  unlink,
  writeFile,
} as const;
export type Disk = typeof DISK;

/** The system's own name for a fault, such as ENOSPC. */
export const faultOf = (error: unknown): string =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : 'unknown';

const REASONS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EFBIG: 'the file would be larger than allowed here',
  EACCES: 'permission is denied',
  EPERM: 'permission is denied',
  EROFS: 'the disk is read-only',
  ENOENT: 'the folder does not exist',
  ENOTDIR: 'a part of the path is not a folder',
  EISDIR: 'it is a folder, not a file',
  EIO: 'the disk reports a fault',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'the path leads round in a circle',
};

/** A fault as a practitioner would say it. */
export const reasonOf = (error: unknown): string => {
  const fault = faultOf(error);
  return (
    REASONS[fault] ??
    `the disk refused (${fault === 'unknown' && error instanceof Error ? error.message : fault})`
  );
};
