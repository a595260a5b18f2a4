"use strict";
// The form of a thing while it is open: what is typed is looked at, saved when a control is left, and tried again where
// nobody answers. Nothing here decides anything: without it, the form is saved by its button.
(() => {
  const facts = () => document.getElementById("facts");
  if (!facts() || !facts().dataset.autosave) return;
  document.documentElement.classList.add("scripted");
  const saves = facts().dataset.autosave === "yes";
  const AGAIN_MS = 4000, LOOK_MS = 300;
  let unsaved = false, leaving = false, looking = null, again = null, waiting = null, sent = new Map();

  const inFacts = (event) => facts().contains(event.target);
  const values = () => [...facts().elements].filter((one) => one.name && one.type !== "hidden" && one.type !== "submit");
  const key = (one) => `${one.name}=${one.type === "checkbox" ? one.value : ""}`;
  const held = (one) => one.type === "checkbox" ? one.checked : one.value;

  function say(words) {
    const line = document.createElement("p");
    line.className = "refusal";
    line.textContent = words;
    document.getElementById("saying").replaceChildren(line);
  }

  // A look is asked for beside the form: it must not stand in the way of what is saved.
  function look() {
    const typed = { ...htmx.values(facts(), "post"), do: "look" };
    htmx.ajax("POST", location.pathname + location.search, { source: document.getElementById("picture"), swap: "none", values: typed });
  }

  document.addEventListener("input", (event) => {
    if (!inFacts(event)) return;
    unsaved = true;
    waiting = null;
    clearTimeout(looking);
    looking = setTimeout(look, LOOK_MS);
  });
  document.addEventListener("change", (event) => {
    if (!inFacts(event)) return;
    clearTimeout(looking);
    if (!saves) look();
  });
  // Another form of the page is sent once what was typed here is saved; where that is refused, it is not sent at all.
  let elsewhere = false;
  document.addEventListener("input", (event) => { if (!inFacts(event)) elsewhere = true; });
  document.addEventListener("submit", (event) => {
    const isFacts = event.target === facts();
    if (saves && isFacts && elsewhere && event.submitter && event.submitter.value === "save") {
      event.preventDefault();
      htmx.trigger(facts(), "change");
    } else if (saves && !isFacts && unsaved) {
      event.preventDefault();
      waiting = [event.target, event.submitter];
      htmx.trigger(facts(), "change");
    } else {
      leaving = true;
    }
  });
  function sendOn(isSaved) {
    const [form, button] = waiting || [];
    waiting = null;
    // The revision that came of saving is set into the form first.
    if (form && isSaved) setTimeout(() => form.requestSubmit(button), 50);
  }
  addEventListener("beforeunload", (event) => { if ((unsaved || elsewhere) && !leaving) event.preventDefault(); });

  document.addEventListener("htmx:beforeRequest", (event) => {
    if (event.target.id === "facts") sent = new Map(values().map((one) => [key(one), held(one)]));
  });
  document.addEventListener("htmx:afterRequest", (event) => {
    if (event.target.id !== "facts") return;
    const status = event.detail.xhr.status;
    // An answer that refuses is one as well: what it is about is not saved.
    const isSaved = status >= 200 && status < 400;
    if (isSaved) unsaved = typedSince().length > 0;
    sendOn(isSaved && !unsaved);
    if (isSaved || status === 409 || status === 422) return;
    say("Not saved: the server does not answer. What you typed is still here, and is sent again every few seconds.");
    clearTimeout(again);
    again = setTimeout(() => htmx.trigger(facts(), "change"), AGAIN_MS);
  });

  // Where somebody else changed the thing too, the form comes back whole: what was typed meanwhile stays.
  const typedSince = () => values().filter((one) => sent.has(key(one)) && sent.get(key(one)) !== held(one));
  let kept = [];
  document.addEventListener("htmx:beforeSwap", (event) => {
    kept = event.detail.target && event.detail.target.id === "facts" ? typedSince().map((one) => [key(one), held(one)]) : [];
  });
  document.addEventListener("htmx:afterSettle", () => {
    const now = new Map(values().map((one) => [key(one), one]));
    for (const [name, value] of kept) {
      const one = now.get(name);
      if (one && one.type === "checkbox") one.checked = value;
      else if (one) one.value = value;
    }
    kept = [];
    mark();
  });
  document.addEventListener("htmx:oobAfterSwap", mark);

  // What is refused is marked at its control, for who hears the page as well as for who sees it.
  function mark() {
    for (const control of facts().querySelectorAll("[aria-describedby]")) {
      const said = document.getElementById(control.getAttribute("aria-describedby"));
      if (said && said.querySelector(".wrong")) control.setAttribute("aria-invalid", "true");
      else control.removeAttribute("aria-invalid");
    }
  }
})();
