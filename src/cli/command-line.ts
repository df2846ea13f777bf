import yargs from "yargs";
import {
  CannotStart,
  type ExitCode,
  type Terminal,
  type Verb,
  type VerbArguments,
} from "./verb.ts";

/**
 * Reads the command line and runs the verb that it names. Returns the exit code; wrong arguments and work that
 * cannot start are 2, with the reason on standard error.
 */
export async function runCommandLine(
  words: string[],
  verbs: readonly Verb[],
  terminal: Terminal,
): Promise<ExitCode> {
  const complaints: string[] = [];
  let chosen: Chosen | null = null;
  const parser = yargs(words)
    .scriptName("aortic-packet")
    .usage("$0 VERB [options]\n\nFrom aortic measurements to the planning meeting.")
    .epilogue(
      "It compares measurements with published criteria and recommends nothing.\n" +
        "Exit codes: 0 all used; 1 something was set aside or a case failed; 2 the work could not start.",
    )
    .option("json", { type: "boolean", default: false, describe: "print JSON for machines" })
    .demandCommand(1, "Name a verb; --help lists them.")
    .recommendCommands()
    .strict()
    .completion("completion", "print the completion script for your shell")
    .version(false)
    .exitProcess(false)
    .fail((message, error) => {
      if (!message && error) throw error;
      complaints.push(message);
    })
    .wrap(100);
  const isCompleting = words.includes("--get-yargs-completions");
  for (const verb of verbs)
    addVerb(parser, verb, { isCompleting, choose: (next) => (chosen = next) });
  await parser.parseAsync();
  try {
    if (complaints.length > 0) throw new CannotStart(complaints.join("\n"));
    const { verb, values } = (chosen ?? {}) as Partial<Chosen>;
    return verb && values ? await verb.run(argumentsOf(values), terminal) : 0;
  } catch (error) {
    if (!(error instanceof CannotStart)) throw error;
    terminal.complain(`aortic-packet: ${error.message}`);
    return 2;
  }
}

/** The verb that the words name, with what the parser made of the rest. */
interface Chosen {
  verb: Verb;
  values: Record<string, unknown>;
}

function argumentsOf(values: Record<string, unknown>): VerbArguments {
  const optionalText = (name: string): string | null => {
    const given = values[name];
    if (Array.isArray(given)) throw new CannotStart(`--${name} is given more than once`);
    return given === undefined || given === null ? null : String(given);
  };
  const text = (name: string): string => {
    const given = optionalText(name);
    if (given === null) throw new CannotStart(`--${name} is missing`);
    return given;
  };
  const flag = (name: string): boolean => values[name] === true;
  return { text, optionalText, flag, json: flag("json") };
}

function addVerb(
  parser: ReturnType<typeof yargs>,
  verb: Verb,
  { isCompleting, choose }: { isCompleting: boolean; choose: (chosen: Chosen) => void },
): void {
  const words = verb.positionals.map(({ name, required }) =>
    required ? `<${name}>` : `[${name}]`,
  );
  parser.command(
    [verb.name, ...words].join(" "),
    verb.describe,
    (own) => {
      for (const { name, describe } of verb.positionals) {
        own.positional(name, { describe, type: "string" });
      }
      for (const [name, option] of Object.entries(verb.options)) {
        const { describe, type, required, default: value, words: known } = option;
        own.option(name, {
          describe,
          type,
          requiresArg: type === "string",
          demandOption: required === true,
          ...(value === undefined ? {} : { default: value }),
          ...(isCompleting && known ? { choices: known } : {}),
        });
      }
      return own.example(verb.example, "");
    },
    (values) => choose({ verb, values }),
  );
}
