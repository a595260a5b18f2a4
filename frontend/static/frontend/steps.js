"use strict";
// The text of a step: an opening brace lists what can be named, and a typed number is replaced by the name of what it
// measures. The names are those that the page lists anyway. Without this, they are copied from there.
(() => {
  const MOST = 8;
  const listed = document.getElementById("names");
  if (!listed) return;
  const names = [...listed.children].map((one) => ({
    name: one.dataset.name, words: one.querySelector("span").textContent, html: one,
    sought: `${one.dataset.name} ${one.querySelector("span").textContent}`.toLowerCase(),
  }));
  const isText = (one) => one.id === "v:text";
  const said = document.createElement("div");
  said.className = "unseen";
  said.setAttribute("role", "status");
  document.querySelector("main").append(said);
  const list = document.createElement("ul");
  list.id = "named";
  list.className = "named";
  list.hidden = true;
  list.setAttribute("role", "listbox");
  list.setAttribute("aria-label", "What a step can name");
  let found = [], active = 0, closedAt = -1;

  // What follows the last brace before the caret, unless that is closed again or doubled, which prints a brace.
  function sought(text) {
    if (text.selectionStart !== text.selectionEnd) return null;
    const before = text.value.slice(0, text.selectionStart);
    const match = /\{+([^{}\n]*)$/.exec(before);
    if (!match || (match[0].length - match[1].length) % 2 === 0) return null;
    return { start: before.length - match[1].length - 1, words: match[1] };
  }

  // Names that begin so come before those that hold it, and these before what is only called so.
  function matching(words) {
    const asked = words.trim().toLowerCase();
    const rank = (one) => {
      const name = one.name.toLowerCase();
      return name === asked ? 0 : name.startsWith(asked) ? 1 : name.includes(asked) ? 2 : 3;
    };
    return names.filter((one) => one.sought.includes(asked)).map((one, at) => [rank(one), at, one])
      .sort((one, other) => one[0] - other[0] || one[1] - other[1]).map((one) => one[2]);
  }

  function close(text) {
    list.hidden = true;
    found = [];
    text.removeAttribute("aria-activedescendant");
    text.removeAttribute("aria-controls");
  }

  function choose(text, at) {
    active = at;
    [...list.children].forEach((one, number) => one.setAttribute("aria-selected", String(number === at)));
    text.setAttribute("aria-activedescendant", list.children[at].id);
    list.children[at].scrollIntoView({ block: "nearest" });
  }

  function open(text) {
    const here = sought(text);
    if (!here || here.start === closedAt) return close(text);
    closedAt = -1;
    const all = matching(here.words);
    const wasOpen = !list.hidden, before = found.map((one) => one.name).join();
    found = all.slice(0, MOST);
    if (!found.length) {
      if (wasOpen) said.textContent = "Nothing is called so.";
      return close(text);
    }
    if (wasOpen && before === found.map((one) => one.name).join()) return undefined;
    list.replaceChildren(...found.map((one, number) => {
      const option = document.createElement("li");
      option.id = `named:${number}`;
      option.setAttribute("role", "option");
      option.append(...[...one.html.childNodes].map((node) => node.cloneNode(true)));
      return option;
    }));
    if (list.parentElement !== text.parentElement) text.after(list);
    list.hidden = false;
    text.setAttribute("aria-autocomplete", "list");
    text.setAttribute("aria-haspopup", "listbox");
    text.setAttribute("aria-controls", "named");
    choose(text, 0);
    const more = all.length > found.length ? `, the first ${found.length} are listed` : "";
    said.textContent = `${all.length} ${all.length === 1 ? "name" : "names"}${more}. Up and down choose, Enter writes.`;
    return undefined;
  }

  function write(text, start, end, words) {
    text.focus();
    text.setRangeText(words, start, end, "end");
    text.dispatchEvent(new Event("input", { bubbles: true }));
  }

  function accept(text, at) {
    const here = sought(text);
    if (!here) return close(text);
    // The rest of a name that the caret stands in goes with it, and so does its closing brace.
    const rest = /^[A-Za-z0-9.:\/_-]*\}|^/.exec(text.value.slice(text.selectionStart))[0].length;
    const name = found[at].name;
    close(text);
    write(text, here.start, text.selectionStart + rest, `{${name}}`);
    said.textContent = `${name} is written.`;
    changed = true;
    return undefined;
  }

  // What a script writes is no change for the browser: it must be saved all the same when the text is left.
  let changed = false;
  document.addEventListener("focusout", (event) => {
    if (!isText(event.target)) return;
    close(event.target);
    if (changed) event.target.dispatchEvent(new Event("change", { bubbles: true }));
  });
  document.addEventListener("change", (event) => { if (isText(event.target)) changed = false; });
  document.addEventListener("input", (event) => { if (isText(event.target)) open(event.target); });
  document.addEventListener("click", (event) => { if (isText(event.target)) open(event.target); });

  document.addEventListener("keydown", (event) => {
    const text = event.target;
    if (!isText(text) || list.hidden || event.isComposing || event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      choose(text, (active + (event.key === "ArrowDown" ? 1 : found.length - 1)) % found.length);
    } else if (event.key === "Enter" || (event.key === "Tab" && !event.shiftKey)) {
      accept(text, active);
    } else if (event.key === "Escape") {
      closedAt = sought(text) ? sought(text).start : -1;
      close(text);
    } else return;
    event.preventDefault();
  });
  document.addEventListener("keyup", (event) => {
    if (isText(event.target) && ["ArrowLeft", "ArrowRight", "Home", "End"].includes(event.key)) open(event.target);
  });
  // The text keeps the focus while a name is pointed at.
  list.addEventListener("mousedown", (event) => event.preventDefault());
  list.addEventListener("click", (event) => {
    const option = event.target.closest("[role=option]");
    if (option) accept(document.getElementById("v:text"), [...list.children].indexOf(option));
  });

  // The button beside a typed number sends the form; here it writes into the text, which is then saved as ever.
  document.addEventListener("click", (event) => {
    const button = event.target.closest("button[data-instead-of]");
    if (!button) return;
    const text = document.getElementById("v:text");
    const [, at, ...reference] = button.value.split(":");
    const start = Number(at) + text.value.length - text.value.trimStart().length;
    const end = start + button.dataset.insteadOf.length;
    if (text.value.slice(start, end) !== button.dataset.insteadOf) return;
    event.preventDefault();
    closedAt = -1;
    write(text, start, end, `{${reference.join(":")}}`);
    close(text);
    text.dispatchEvent(new Event("change", { bubbles: true }));
  });
})();
