/** The casebook on disk: load a text, change it without loss, save it without loss. */
export { editCase } from './edit-case.ts';
export { loadText } from './load-text.ts';
export { saveText } from './save-text.ts';
