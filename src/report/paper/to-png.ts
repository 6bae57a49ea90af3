/** Of a drawing of 96 pixels to the inch, so many that paper shows no steps. */
const dotsPerInch = 300;

/** A chart as PNG at 300 dots per inch on white, with the size of its drawing in pixels at 96. */
export async function pngOf(
  svg: string,
): Promise<{ readonly bytes: Uint8Array; readonly width: number; readonly height: number }> {
  const { default: sharp } = await import('sharp');
  const [, width = '0', height = '0'] = /^<svg [^>]*?width="([\d.]+)" height="([\d.]+)"/.exec(svg) ?? [];
  // The renderer counts 72 to the inch where a drawing counts 96.
  const bytes = await sharp(Buffer.from(svg), { density: (dotsPerInch * 72) / 96 })
    .flatten({ background: '#fff' })
    .withMetadata({ density: dotsPerInch })
    .png()
    .toBuffer();
  return { bytes, width: Number(width), height: Number(height) };
}
