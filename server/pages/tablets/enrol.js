// Takes the invitation from behind the hash, makes this tablet's own key and enrols it by the public half.
import { makeKey } from "../bench/device_key.js";

const invited = document.getElementById("invited");
if (invited && location.hash.length > 1) {
  invited.invitation.value = location.hash.slice(1);
  // What is left in the address bar and in the browser's history opens nothing.
  history.replaceState(null, "", location.pathname);
  invited.submit();
}

const form = document.getElementById("enrol");
form?.addEventListener("submit", (sent) => {
  sent.preventDefault();
  makeKey().then((publicKey) => {
    form.public_key.value = publicKey;
    form.submit();
  }, (trouble) => {
    document.getElementById("enrol-told").textContent = `This browser made no key (${trouble.message}). Open the invitation by the shop's https address.`;
  });
});
