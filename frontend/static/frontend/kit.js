// What the page of a kit does beyond links and forms: Escape closes a form, and an answer that does not come is said.
(function () {
  "use strict";
  document.documentElement.classList.add("scripted");

  document.addEventListener("keydown", function (event) {
    const form = event.key === "Escape" && event.target.closest("form.change");
    if (form) form.querySelector(".cancel").click();
  });

  function said(missing) {
    document.getElementById("unanswered").hidden = !missing;
  }
  document.addEventListener("htmx:afterRequest", function (event) {
    // A check that is asked for every second asks again by itself.
    if (event.detail.requestConfig.verb !== "get") said(!event.detail.successful && event.detail.xhr.status !== 409 && event.detail.xhr.status !== 422);
  });
})();
