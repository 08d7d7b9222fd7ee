for (const table of document.querySelectorAll("table.sortable")) {
  const heads = [...table.tHead.rows[0].cells];
  heads.forEach((head, column) => head.firstElementChild.addEventListener("click", () => {
    const down = head.getAttribute("aria-sort") === "ascending";
    for (const other of heads) other.removeAttribute("aria-sort");
    head.setAttribute("aria-sort", down ? "descending" : "ascending");
    const number = row => Number.parseFloat(row.cells[column].dataset.number);
    const rows = [...table.tBodies[0].rows].sort((a, b) => {
      const [x, y] = [number(a), number(b)];
      if (Number.isNaN(x) || Number.isNaN(y)) return Number.isNaN(x) - Number.isNaN(y);
      return down ? y - x : x - y;
    });
    table.tBodies[0].append(...rows);
  }));
}
