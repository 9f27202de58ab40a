// Compares pictures, pixel by pixel. A blank page of the browser does the decoding.

/** Opens the blank page; `differing(a, b)` counts the pixels of two PNGs that are not the same. */
export async function comparer(browser) {
  const page = await browser.newPage();
  return {
    differing: (a, b) =>
      page.evaluate(
        async ([a, b]) => {
          const pixels = async (png) => {
            const bytes = Uint8Array.from(atob(png), (letter) => letter.charCodeAt(0));
            const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
            const canvas = new OffscreenCanvas(image.width, image.height);
            const context = canvas.getContext("2d");
            context.drawImage(image, 0, 0);
            return new Uint32Array(context.getImageData(0, 0, image.width, image.height).data.buffer);
          };
          const [left, right] = [await pixels(a), await pixels(b)];
          if (left.length !== right.length) return Math.max(left.length, right.length);
          return left.reduce((count, pixel, i) => count + (pixel === right[i] ? 0 : 1), 0);
        },
        [a.toString("base64"), b.toString("base64")],
      ),
    close: () => page.close(),
  };
}
