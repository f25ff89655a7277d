// Takes a picture with the tablet's camera and makes of it the bytes that are hashed, kept and sent: one JPEG, nothing else in it.

import { sha256 } from "./sha256.js";

const LONGEST_PX = 2000;
const MOST_BYTES = 2000000;
const QUALITIES = [0.88, 0.8, 0.7];

/** Opens the camera, or the choice of a file where there is none; gives the file, or null when nothing was taken. */
export function askForPicture() {
  const asked = document.createElement("input");
  Object.assign(asked, { type: "file", accept: "image/*" });
  asked.setAttribute("capture", "environment");
  return new Promise((resolve) => {
    asked.addEventListener("change", () => resolve(asked.files[0] ?? null));
    asked.addEventListener("cancel", () => resolve(null));
    asked.click();
  });
}

/** Sets the picture anew, upright and small enough: {blob, sha256, taken}. What the camera wrote beside it stays behind. */
export async function picked(file) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" }).catch(() => {
    throw new Error(`“${file.name}” is no picture this tablet can read; take it again`);
  });
  let side = LONGEST_PX;
  for (;;) {
    const canvas = laidOut(picture, side);
    for (const quality of QUALITIES) {
      const blob = await new Promise((made) => canvas.toBlob(made, "image/jpeg", quality));
      if (!blob) throw new Error("the tablet could not write the picture; free some room, take it again");
      if (blob.size <= MOST_BYTES) return { blob, sha256: await sha256(await blob.arrayBuffer()), taken: takenAt(file) };
    }
    side = Math.round(side * 0.7);
  }
}

function laidOut(picture, longest) {
  const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const paper = canvas.getContext("2d");
  paper.fillStyle = "#fff";
  paper.fillRect(0, 0, canvas.width, canvas.height);
  paper.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return canvas;
}

/** When the file was written, by this tablet's clock; a picture out of the album is older than its entry, and says so. */
function takenAt(file) {
  return new Date(Math.min(file.lastModified || Date.now(), Date.now())).toISOString();
}
