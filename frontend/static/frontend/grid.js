"use strict";
// The table of pieces as a table of figures: Enter and the arrows lead down and up a column, a block of cells is pasted
// over the table, a value is taken from the row above, a length is said in both units. What is left is saved; where it
// cannot be, it stays, and leaving the page asks.
(() => {
  const form = document.querySelector("form:has(table.grid)");
  const rows = [...form.querySelectorAll("table.grid tbody tr")];
  const controls = (row) => [...row.querySelectorAll("input, select")];
  const column = (one) => one.name.split(".").pop();
  const before = new Map([...form.elements].filter((one) => one.name.includes(".")).map((one) => [one, one.value]));
  const isChanged = () => [...before].some(([one, text]) => one.value !== text);
  const inTable = (one) => one.name && one.name.includes(".");
  const besides = (one, steps) => {
    const row = rows[rows.indexOf(one.closest("tr")) + steps];
    return row && controls(row).find((other) => column(other) === column(one));
  };

  function put(one, text) {
    const wanted = text.trim();
    if (one.tagName !== "SELECT") { one.value = wanted; return; }
    const option = [...one.options].find((each) => [each.value, each.text].some((name) => name.toLowerCase() === wanted.toLowerCase()));
    if (option) one.value = option.value;
  }

  form.addEventListener("keydown", (event) => {
    if (!inTable(event.target)) return;
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "d") {
      const above = besides(event.target, -1);
      if (above) { event.preventDefault(); put(event.target, above.value); }
      return;
    }
    const down = event.key === "ArrowDown" || event.key === "Enter";
    if (!(down || event.key === "ArrowUp") || event.target.tagName !== "INPUT" || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === "Enter" && event.target.closest("tr.new")) {
      event.preventDefault();
      event.target.closest("tr").querySelector("button[value=add]").click();
      return;
    }
    const to = besides(event.target, down && !event.shiftKey ? 1 : -1);
    if (to) {
      event.preventDefault();
      to.focus();
      if (to.select) to.select();
    }
  });

  // Cells go where they were aimed at; rows beyond the table become lines of the list below, to be read and added.
  form.addEventListener("paste", (event) => {
    const text = event.clipboardData.getData("text/plain").replace(/\r\n?/g, "\n").replace(/\n$/, "");
    if (!inTable(event.target) || !/[\t\n]/.test(text)) return;
    event.preventDefault();
    const first = rows.indexOf(event.target.closest("tr"));
    const start = controls(rows[first]).filter((one) => !one.name.endsWith(".id")).indexOf(event.target);
    const lines = text.split("\n");
    const room = rows.length - 1 - first;
    for (const [at, line] of lines.slice(0, room).entries()) {
      const cells = controls(rows[first + at]).filter((one) => !one.name.endsWith(".id")).slice(start);
      line.split("\t").slice(0, cells.length).forEach((value, number) => put(cells[number], value));
    }
    const rest = lines.slice(Math.max(room, 0));
    if (rest.length) {
      const box = document.getElementById("pasted");
      box.closest("details").open = true;
      box.value = [box.value.trim(), ...rest].filter(Boolean).join("\n");
    }
    say(`${Math.min(lines.length, Math.max(room, 0))} rows filled${rest.length ? `, ${rest.length} put into the list below` : ""}. Nothing is saved yet.`);
  });

  const echo = () => document.getElementById("echo");
  const say = (words) => { echo().textContent = words; };

  // One after the other: each is made on the revision that came of the one before.
  let saving = Promise.resolve();
  async function save() {
    if (!isChanged()) return;
    const sent = new Map([...before.keys()].map((one) => [one, one.value]));
    const values = { ...htmx.values(form, "post"), do: "left" };
    await htmx.ajax("POST", form.action, { source: form, swap: "none", values });
    if (echo().classList.contains("wrong")) return;
    for (const [one, text] of sent) if (!one.closest("tr.new")) before.set(one, text);
  }
  const unanswered = () => say("Not saved: the server does not answer. What you typed is still here; save by the button.");
  form.addEventListener("change", (event) => {
    if (inTable(event.target) && !event.target.closest("tr.new")) saving = saving.then(save).catch(unanswered);
  });

  let asking = null;
  form.addEventListener("input", (event) => {
    if (!inTable(event.target) || !["width", "height"].includes(column(event.target))) return;
    clearTimeout(asking);
    asking = setTimeout(async () => {
      const answer = await fetch(`${form.dataset.length}?text=${encodeURIComponent(event.target.value)}`).catch(() => null);
      if (answer && answer.ok) say(await answer.text());
    }, 250);
  });

  let isSent = false;
  document.addEventListener("submit", () => { isSent = true; });
  addEventListener("beforeunload", (event) => { if (!isSent && isChanged()) event.preventDefault(); });
})();
