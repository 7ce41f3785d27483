/** What the system says of a file, in words; anything that is not a fault of a file is thrown on. */
export function faultInWords(error: unknown): string {
  if (!isSystemError(error)) throw error;
  return words[error.code] ?? `the system says ${error.code}`;
}

const words: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  ENOTDIR: 'a part of its path is not a folder',
  EISDIR: 'it is a folder',
  EACCES: 'it may not be opened (no permission)',
  EPERM: 'it may not be changed (no permission)',
  EROFS: 'its disk is read-only',
  ENOSPC: 'its disk is full',
  ELOOP: 'its links lead round in a circle',
  ENAMETOOLONG: 'its name is too long',
  EMFILE: 'too many files are open',
};

function isSystemError(error: unknown): error is NodeJS.ErrnoException & { readonly code: string } {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' && 'syscall' in error;
}
