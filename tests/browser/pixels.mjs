// Looks at pictures pixel by pixel. A blank page of the browser does the decoding.

/** Opens the blank page. */
export async function comparer(browser) {
  const page = await browser.newPage();
  await page.evaluate(() => {
    window.pixels = async (png) => {
      const bytes = Uint8Array.from(atob(png), (letter) => letter.charCodeAt(0));
      const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
      const canvas = new OffscreenCanvas(image.width, image.height);
      const context = canvas.getContext("2d");
      context.drawImage(image, 0, 0);
      return new Uint32Array(context.getImageData(0, 0, image.width, image.height).data.buffer);
    };
  });
  const text = (png) => png.toString("base64");
  return {
    /** How many pixels of two PNGs are not the same. */
    differing: (a, b) =>
      page.evaluate(
        async ([a, b]) => {
          const [left, right] = [await window.pixels(a), await window.pixels(b)];
          if (left.length !== right.length) return Math.max(left.length, right.length);
          return left.reduce((count, pixel, i) => count + (pixel === right[i] ? 0 : 1), 0);
        },
        [text(a), text(b)],
      ),
    /** How many different colours a PNG has. */
    colours: (png) => page.evaluate(async (png) => new Set(await window.pixels(png)).size, text(png)),
    close: () => page.close(),
  };
}
