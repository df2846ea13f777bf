/** Exit codes: 0 all used; 1 something was set aside or a case failed; 2 the work could not start. */
export type ExitCode = 0 | 1 | 2;

export interface OptionSpec {
  describe: string;
  type: "string" | "boolean";
  required?: true;
  default?: string;
  /** Words that the shell completes; the verb itself says what it does not know. */
  words?: readonly string[];
}

/** One verb of the command line. Its options are data; the words of the help come from here. */
export interface Verb {
  name: string;
  describe: string;
  /** Words after the verb, in order. */
  positionals: { name: string; describe: string; required: boolean }[];
  options: Record<string, OptionSpec>;
  example: string;
  run: (args: VerbArguments, terminal: Terminal) => Promise<ExitCode>;
}

/** Options and words as given; `text` throws for one that the command line must have asked for. */
export interface VerbArguments {
  text: (name: string) => string;
  optionalText: (name: string) => string | null;
  /** An option without a value: whether it was given. */
  flag: (name: string) => boolean;
  json: boolean;
}

/** Where a verb prints. */
export interface Terminal {
  print: (line: string) => void;
  complain: (line: string) => void;
  /** Shows how far a stage of the work is; a bar on a terminal, a line at its end elsewhere. */
  progress: (stage: string, done: number, total: number) => void;
}

/** The work can't start: bad option, missing folder, broken site file. Ends with exit code 2. */
export class CannotStart extends Error {}
