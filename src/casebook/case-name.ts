/** Letters of any script, digits, and single dashes between them. Letters with loose accents are not among them. */
const SHAPE = /^[\p{L}\p{N}]+(-[\p{L}\p{N}]+)*$/u;
/** Names that Windows keeps for devices, whatever their ending (learn.microsoft.com, "Naming Files, Paths, and Namespaces"). */
const DEVICES = /^(con|prn|aux|nul|com\d|lpt\d)$/i;
/** Names that files and folders of a studio, or files beside a case, have for other reasons. */
const RESERVED: ReadonlySet<string> = new Set([
  'draft',
  'making',
  'history',
  'records',
  'lock',
  'tmp',
  'temp',
  'kept',
  'rules',
  'studio',
]);

/** Whether a name has a meaning of its own in a studio, so that nothing new may be called so. */
export const isReservedName = (name: string): boolean => RESERVED.has(name.toLowerCase());

/** Characters, and bytes: file systems take 255 bytes, and a stamp or a helper's name may come on top. */
const MOST = 80;
const MOST_BYTES = 160;

/** Whether a case may be called so: the name becomes that of its file, on any machine it may be copied to. */
export const isCaseName = (name: string): boolean =>
  SHAPE.test(name) && !DEVICES.test(name) && name.length <= MOST && Buffer.byteLength(name) <= MOST_BYTES;
