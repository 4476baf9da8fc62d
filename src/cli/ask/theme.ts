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

/** An answer stands behind its question where there is room, else on a line of its own: prompts break words. */
const fitting = (room: number, ink: (text: string) => string) => (text: string) =>
  text.length > room ? `\n  ${ink(text)}` : ink(text);

const cyan = (text: string): string => `\u001b[36m${text}\u001b[39m`;

/** How prompts look; `room` is what is left of the question's last line. NO_COLOR and TERM=dumb ask for plain ones. */
export const inputTheme = (color: boolean) => (color ? {} : PLAIN);

export const selectTheme = (color: boolean, room = Number.POSITIVE_INFINITY) =>
  color
    ? { icon: { cursor: '>' }, style: { ...CHOOSING, answer: fitting(room, cyan) } }
    : {
        ...PLAIN,
        icon: { cursor: '>' },
        style: {
          ...PLAIN.style,
          ...CHOOSING,
          answer: fitting(room, same),
          disabled: same,
          description: same,
        },
      };
