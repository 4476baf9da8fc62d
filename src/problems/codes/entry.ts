/** What a code means whatever file it turns up in: printed by `mendwise explain CODE`. */
export interface CodeEntry {
  readonly title: string;
  readonly cause: string;
  readonly cure: string;
}

export const entry = (title: string, cause: string, cure: string): CodeEntry => ({ title, cause, cure });
