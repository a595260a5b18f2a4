"use strict";
// Enter and the arrows lead down and up a column, as in a table of figures; leaving with unsaved values is asked about.
(() => {
  const form = document.querySelector("form:has(table.grid)");
  const rows = [...form.querySelectorAll("tbody tr")];
  const controls = (row) => [...row.querySelectorAll("input, select")];
  const before = new Map([...form.elements].filter((one) => one.name.includes(".")).map((one) => [one, one.value]));
  const isChanged = () => [...before].some(([one, text]) => one.value !== text);
  form.addEventListener("keydown", (event) => {
    const down = event.key === "ArrowDown" || event.key === "Enter";
    if (!(down || event.key === "ArrowUp") || event.target.tagName !== "INPUT" || event.altKey || event.ctrlKey || event.metaKey) return;
    const row = event.target.closest("tr");
    const column = event.target.name.split(".").pop();
    const next = rows[rows.indexOf(row) + (down && !event.shiftKey ? 1 : -1)];
    const to = next && controls(next).find((one) => one.name.split(".").pop() === column);
    if (to) {
      event.preventDefault();
      to.focus();
      if (to.select) to.select();
    }
  });
  let isSent = false;
  form.addEventListener("submit", () => { isSent = true; });
  addEventListener("beforeunload", (event) => { if (!isSent && isChanged()) event.preventDefault(); });
})();
