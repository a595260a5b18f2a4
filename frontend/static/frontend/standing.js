"use strict";
// Where the bar that follows a check is replaced by an answer that knows more, what it has asked for is called off: an
// answer to a bar that is gone would find nothing of the page.
document.addEventListener("htmx:oobBeforeSwap", (event) => {
  if (event.detail.target.id === "standing") htmx.trigger(event.detail.target, "htmx:abort");
});
