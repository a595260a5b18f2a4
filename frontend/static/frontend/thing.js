"use strict";
// The form of a thing while it is open: what is typed is looked at, saved when a control is left, and tried again where
// nobody answers. Nothing here decides anything: without it, the form is saved by its button.
(() => {
  const form = document.getElementById("facts");
  if (!form || !form.dataset.autosave) return;
  document.documentElement.classList.add("scripted");
  const saves = form.dataset.autosave === "yes";
  const saying = () => document.getElementById("saying");
  const AGAIN_MS = 4000, LOOK_MS = 300;
  let unsaved = false, leaving = false, looking = null, again = null;

  const isValue = (one) => one.name && one.name !== "revision" && one.name !== "csrfmiddlewaretoken" && one.type !== "submit";

  function say(words) {
    const line = document.createElement("p");
    line.className = "refusal";
    line.textContent = words;
    saying().replaceChildren(line);
  }

  // A look is asked for beside the form: it must not stand in the way of what is saved.
  function look() {
    const values = { ...htmx.values(form, "post"), do: "look" };
    htmx.ajax("POST", location.pathname + location.search, { source: document.getElementById("picture"), swap: "none", values });
  }

  form.addEventListener("input", (event) => {
    if (!isValue(event.target)) return;
    unsaved = true;
    clearTimeout(looking);
    looking = setTimeout(look, LOOK_MS);
  });
  form.addEventListener("change", () => { clearTimeout(looking); if (!saves) look(); });
  document.addEventListener("submit", () => { leaving = true; });
  addEventListener("beforeunload", (event) => { if (unsaved && !leaving) event.preventDefault(); });

  form.addEventListener("htmx:afterRequest", (event) => {
    const status = event.detail.xhr.status;
    if (event.detail.successful) unsaved = false;
    if (status === 409 || status === 422 || event.detail.successful) return;
    say("Not saved: the server does not answer. What you typed is still here, and is sent again every few seconds.");
    clearTimeout(again);
    again = setTimeout(() => htmx.trigger(form, "change"), AGAIN_MS);
  });

  // What is refused is marked at its control, for who hears the page as well as for who sees it.
  document.addEventListener("htmx:afterSettle", mark);
  document.addEventListener("htmx:oobAfterSwap", mark);
  function mark() {
    for (const control of form.querySelectorAll("[aria-describedby]")) {
      const said = document.getElementById(control.getAttribute("aria-describedby"));
      if (said && said.querySelector(".wrong")) control.setAttribute("aria-invalid", "true");
      else control.removeAttribute("aria-invalid");
    }
  }
})();
