"""A camera and a reader of codes for a browser that has neither: what is put into `seen` is what the camera sees."""

# A canvas as the camera; the reader is asked for QR codes and gives what `seen` holds, or breaks as it says.
FAKE_CAMERA = """
window.seen = []; window.asked = []; window.broken = null; window.tracks = [];
window.BarcodeDetector = class {
  constructor(told) { window.asked.push(told.formats.join()); }
  async detect(video) {
    if (window.broken === 'reader') throw new Error('the reader broke');
    window.looked = (window.looked ?? 0) + 1;
    return window.seen.splice(0, 1).map((rawValue) => ({rawValue}));
  }
};
navigator.mediaDevices.getUserMedia = async (told) => {
  window.asked.push(told.video.facingMode);
  if (window.broken === 'camera') throw new DOMException('not allowed', 'NotAllowedError');
  const canvas = document.createElement('canvas');
  canvas.getContext('2d').fillRect(0, 0, 300, 150);
  const stream = canvas.captureStream(5);
  window.tracks.push(...stream.getTracks());
  return stream;
};
"""
