// A photo, made small enough to send from a driveway. Drawing it anew turns it upright and leaves
// behind all that the camera wrote beside it, its position too.

export async function smaller(file: Blob, most = 2048): Promise<Blob> {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const scale = Math.min(1, most / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  return new Promise((good, bad) => {
    canvas.toBlob((b) => (b ? good(b) : bad(new Error('The picture could not be written.'))), 'image/jpeg', 0.82);
  });
}
