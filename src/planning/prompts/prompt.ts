/** A question for the meeting, tied to the fact that raised it. It never says what to do. */
export interface Prompt {
  text: string;
  raisedBy: string;
  answeredBy: string;
}
