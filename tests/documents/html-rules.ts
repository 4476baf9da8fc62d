import type { ConfigData } from 'html-validate';

/** The validator's recommended rules; what it knows only as a style of writing is left to the renderer. */
export const htmlRules: ConfigData = {
  extends: ['html-validate:recommended'],
  rules: {
    // The renderer closes void elements in the way of XML, which HTML allows.
    'void-style': 'off',
    // A style sheet inside keeps the document one file.
    'no-inline-style': 'error',
    'long-title': 'off',
    // Trailing blanks come from the style sheet's own lines.
    'no-trailing-whitespace': 'off',
    // Entities are written where they must be; ">" in text is allowed.
    'no-raw-characters': 'off',
  },
};
