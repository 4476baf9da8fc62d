const same = (text: string): string => text;

/** Signs that any terminal has, and nothing but words. */
const PLAIN = {
  prefix: { idle: '?', done: '-' },
  style: {
    answer: same,
    message: same,
    error: (text: string) => `! ${text}`,
    defaultAnswer: (text: string) => `(${text})`,
    help: same,
    highlight: same,
    key: (text: string) => `<${text}>`,
  },
};

const CHOOSING = { keysHelpTip: () => 'arrows or first letter, then Enter' };

/** How prompts look. NO_COLOR and TERM=dumb ask for plain ones. */
export const inputTheme = (color: boolean) => (color ? {} : PLAIN);

export const selectTheme = (color: boolean) =>
  color
    ? { icon: { cursor: '>' }, style: CHOOSING }
    : {
        ...PLAIN,
        icon: { cursor: '>' },
        style: { ...PLAIN.style, ...CHOOSING, disabled: same, description: same },
      };
