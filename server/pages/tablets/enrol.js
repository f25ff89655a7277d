// Takes the invitation from behind the hash, makes this tablet's own key and enrols it by the public half.
import { makeKey } from "../bench/device_key.js";
import { free, mayGo } from "../frame/may_go.js";

const invited = document.getElementById("invited");
if (invited && location.hash.length > 1) {
  invited.invitation.value = location.hash.slice(1);
  // What is left in the address bar and in the browser's history opens nothing.
  history.replaceState(null, "", location.pathname);
  invited.submit();
}

const form = document.getElementById("enrol");
let made = null;
form?.addEventListener("submit", (sent) => {
  sent.preventDefault();
  // A second key would take the place of the one whose public half is on its way.
  if (!mayGo(form)) return;
  made ??= makeKey();
  made.then((publicKey) => {
    form.public_key.value = publicKey;
    form.submit();
  }, (trouble) => {
    made = null;
    free(form);
    document.getElementById("enrol-told").textContent = `This browser made no key (${trouble.message}). Open the invitation by the shop's https address.`;
  });
});
