/** A rule file with one thing wrong: what is changed in the sound file, and all that must be said of it. */
export interface RuleSlip {
  readonly name: string;
  /** Pairs of text in the sound file and what stands there instead. */
  readonly change: readonly (readonly [from: string, to: string])[];
  /** `line:column [code] sentence «near miss»` */
  readonly said: readonly string[];
  /** Read as rules about units instead of rules of a stage. */
  readonly units?: true;
}

/** Two sound rules; every slip changes them. The mark of 5 % stands on line 6, the effect on line 10. */
export const SOUND = `- rule: some-loss
  title: Some loss
  when:
    all:
      - finding: loss
        at least: 5 %
      - not:
          finding: hung
          is: yes
  then:
    condition: Rows are opened one at a time.
  because: Lost cloth makes up {finding.loss} of the top.
  evidence: common practice
  source: common practice, no source
  since: 2026-01-05

- rule: no-ties-in-weak-cloth
  title: No ties in weak cloth
  when:
    all:
      - planned: governing_fragility
        at least: weak
      - plan: treatment
        is: tie
  then:
    rule out: this plan
  because: The cloth is {planned.governing_fragility}.
  evidence: assumption
  source: this project
  since: 2026-01-05
  yields to: [some-loss]
`;
