import { readdirSync, readFileSync } from "node:fs";
import { basename } from "node:path";
import Handlebars from "handlebars";

/** Fills a template of the folder with a view: HTML text, escaped. */
export type RenderTemplate = (name: string, view: object) => string;

type Environment = ReturnType<typeof Handlebars.create>;

/** A view that lacks a field would silently lose a section: `if` and `each` refuse what is undefined. */
const checkedHelpers = ["if", "each"] as const;

const options = {
  strict: true,
  noEscape: false,
  knownHelpersOnly: true,
  knownHelpers: {
    if: true,
    each: true,
    unless: false,
    with: false,
    log: false,
    lookup: false,
    helperMissing: false,
    blockHelperMissing: false,
  },
};

function guardHelper(environment: Environment, name: (typeof checkedHelpers)[number]): void {
  const helper = environment.helpers[name];
  if (!helper) throw new Error(`handlebars has no helper ${name}`);
  environment.registerHelper(name, function (this: unknown, value: unknown, ...rest) {
    if (value === undefined) throw new Error(`template: {{#${name}}} of a field that is not there`);
    return helper.call(this, value, ...rest);
  });
}

function filesIn(folder: URL): { name: string; text: string }[] {
  const files = readdirSync(folder).filter((file) => file.endsWith(".hbs"));
  return files.toSorted().map((file) => ({
    name: basename(file, ".hbs"),
    text: readFileSync(new URL(file, folder), "utf8"),
  }));
}

/** Names of the partials that a template calls. */
function partialsCalled(text: string): string[] {
  const names: string[] = [];
  class Collector extends Handlebars.Visitor {
    override PartialStatement(statement: hbs.AST.PartialStatement): void {
      if ("original" in statement.name) names.push(String(statement.name.original));
      super.PartialStatement(statement);
    }
  }
  new Collector().accept(Handlebars.parse(text));
  return names;
}

/**
 * Loads every template of a folder and every partial of its folder `partials/`.
 * A template that does not compile, or that calls a partial or helper that does not exist, throws here.
 */
export function loadTemplates(folder: URL): RenderTemplate {
  const environment = Handlebars.create();
  for (const name of checkedHelpers) guardHelper(environment, name);
  const partials = filesIn(new URL("partials/", folder));
  const pages = filesIn(folder);
  const partialNames = new Set(partials.map(({ name }) => name));
  for (const { name, text } of [...partials, ...pages]) {
    environment.precompile(text, options);
    const unknown = partialsCalled(text).find((called) => !partialNames.has(called));
    if (unknown !== undefined) throw new Error(`template ${name}: no partial ${unknown}`);
  }
  for (const { name, text } of partials)
    environment.registerPartial(name, environment.compile(text, options));
  const templates = new Map(
    pages.map(({ name, text }) => [name, environment.compile<object>(text, options)]),
  );
  return (name, view) => {
    const template = templates.get(name);
    if (!template) throw new Error(`no template ${name}`);
    return template(view);
  };
}

/** The pages of this program. */
export const renderTemplate = loadTemplates(new URL("../../templates/", import.meta.url));
