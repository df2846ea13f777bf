/** A cell of a table row that spans as many columns as hold the same. */
export type CellRun<Cell> = Cell & { span: number };

/** Neighbouring cells that hold the same, as one. */
export function cellRuns<Cell extends object>(cells: readonly Cell[]): CellRun<Cell>[] {
  const runs: { cell: Cell; content: string; span: number }[] = [];
  for (const cell of cells) {
    const content = JSON.stringify(cell);
    const last = runs.at(-1);
    if (last?.content === content) last.span += 1;
    else runs.push({ cell, content, span: 1 });
  }
  return runs.map(({ cell, span }) => ({ ...cell, span }));
}
