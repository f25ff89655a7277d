// Makes this tablet's own key and enrols it by the public half.
import { makeKey } from "../bench/device_key.js";

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
