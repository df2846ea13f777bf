"use strict";
{
  const table = document.querySelector("table.patients");
  const body = table.tBodies[0];
  const rows = Array.from(body.rows).filter((row) => row.dataset.tags !== undefined);
  const words = rows.map((row) => row.textContent.toLowerCase());
  const form = document.querySelector("form.controls");
  const { words: search, tag, shown } = form.elements;

  const show = () => {
    const wanted = search.value.toLowerCase().split(/\s+/).filter(Boolean);
    let count = 0;
    rows.forEach((row, index) => {
      const hasTag = tag.value === "" || row.dataset.tags.split(" ").includes(tag.value);
      const isShown = hasTag && wanted.every((word) => words[index].includes(word));
      row.hidden = !isShown;
      if (isShown) count += 1;
    });
    shown.value = `${count} of ${rows.length} shown`;
  };

  /** Cells that span columns (a patient without a report) sort below all others. */
  const sortValue = (row, column) => {
    const cell = row.cells.length === table.tHead.rows[0].cells.length ? row.cells[column] : null;
    const plain = column < 3 ? row.cells[column] : cell;
    return plain ? (plain.dataset.sort ?? plain.textContent) : "";
  };

  const compare = new Intl.Collator("en", { numeric: true, sensitivity: "base" }).compare;

  const sort = (column, header) => {
    const isAscending = header.getAttribute("aria-sort") !== "ascending";
    for (const other of table.tHead.rows[0].cells) other.removeAttribute("aria-sort");
    header.setAttribute("aria-sort", isAscending ? "ascending" : "descending");
    const keyed = rows.map((row, index) => ({ row, index, value: sortValue(row, column) }));
    keyed.sort((a, b) => {
      const order = compare(a.value, b.value);
      return (isAscending ? order : -order) || a.index - b.index;
    });
    body.append(...keyed.map(({ row }) => row));
  };

  Array.from(table.tHead.rows[0].cells).forEach((header, column) => {
    if (header.dataset.plain !== undefined) return;
    const button = document.createElement("button");
    button.type = "button";
    button.append(...header.childNodes);
    header.append(button);
    button.addEventListener("click", () => sort(column, header));
  });

  form.hidden = false;
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("input", show);
  show();
}
