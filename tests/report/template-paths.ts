import Handlebars from "handlebars";

/** Templates and partials by name, as text. */
export type TemplateTexts = ReadonlyMap<string, string>;

interface Scope {
  value: unknown;
  parent: Scope | null;
}

type Missing = Set<string>;

/** Stands for a value that no sample holds, such as an item of an empty list: nothing in it can be checked. */
const unknown = Symbol("unknown");

function lookUp(path: hbs.AST.PathExpression, scope: Scope): unknown {
  let at: Scope | null = scope;
  for (let up = path.depth; up > 0; up--) at = at?.parent ?? null;
  let value: unknown = at?.value;
  for (const part of path.parts) {
    if (value === unknown || value === null) return unknown;
    if (typeof value !== "object" || value === undefined || !(String(part) in value))
      return undefined;
    value = (value as Record<string, unknown>)[String(part)];
  }
  return value;
}

const isPath = (node: hbs.AST.Node): node is hbs.AST.PathExpression =>
  node.type === "PathExpression";

/**
 * Walks a template and its partials beside a sample of its view, through both branches of every condition, and returns
 * the paths that the sample does not hold. `seen` collects the templates that were reached.
 */
export function missingPaths(
  name: string,
  view: object,
  texts: TemplateTexts,
  seen: Set<string>,
): string[] {
  const missing: Missing = new Set();

  const resolve = (node: hbs.AST.Node, scope: Scope, where: string): unknown => {
    if (!isPath(node)) return unknown;
    const value = lookUp(node, scope);
    if (value !== undefined) return value;
    missing.add(`${where}: ${node.original}`);
    return unknown;
  };

  const walkBlock = (block: hbs.AST.BlockStatement, scope: Scope, where: string): void => {
    const helper = isPath(block.path) ? block.path.original : "";
    const [argument] = block.params;
    const value = argument ? resolve(argument, scope, where) : unknown;
    if (helper === "each") {
      const items = Array.isArray(value) && value.length > 0 ? value : [unknown];
      for (const item of items) walk(block.program, { value: item, parent: scope }, where);
    } else walk(block.program, scope, where);
    if (block.inverse) walk(block.inverse, scope, where);
  };

  const walk = (program: hbs.AST.Program, scope: Scope, where: string): void => {
    for (const node of program.body) {
      if (node.type === "MustacheStatement")
        resolve((node as hbs.AST.MustacheStatement).path, scope, where);
      if (node.type === "BlockStatement") walkBlock(node as hbs.AST.BlockStatement, scope, where);
      if (node.type === "PartialStatement") {
        const { name: called, params } = node as hbs.AST.PartialStatement;
        const partial = isPath(called) ? called.original : "";
        const value = params[0] ? resolve(params[0], scope, where) : scope.value;
        walkTemplate(partial, { value, parent: null });
      }
    }
  };

  const walkTemplate = (template: string, scope: Scope): void => {
    seen.add(template);
    if (scope.value === unknown || scope.value === null) return;
    const text = texts.get(template);
    if (text === undefined) throw new Error(`no template ${template}`);
    walk(Handlebars.parse(text), scope, template);
  };

  walkTemplate(name, { value: view, parent: null });
  return [...missing];
}
