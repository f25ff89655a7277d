// Lets an enrolled tablet prove its own key before anybody's PIN is asked for, and again as it is sent.
import { prove } from "../bench/device_key.js";
import { mayGo } from "../frame/may_go.js";

const unproved = document.getElementById("unproved");
if (unproved) {
  prove().then((proved) => {
    if (proved) location.reload();
    else unproved.textContent = unproved.dataset.otherwise;
  });
}

if (document.getElementById("enrolled")) {
  for (const form of document.querySelectorAll("form.door, form.badge")) {
    form.addEventListener("submit", (sent) => {
      sent.preventDefault();
      if (mayGo(form)) prove().then(() => form.submit());
    });
  }
}
