import type { Opinion } from '../../opinion/opinion.js';
import { PaperError } from './paper-error.js';

/** Pixels of the longer side: 170 mm at 240 dots per inch. */
const most_px = 1600;

/**
 * The opinion with its photographs as they are shown: upright, scaled, as JPEG, and without anything else that a camera writes into
 * the file, such as where it stood.
 *
 * @throws PaperError where a file is no picture after all
 */
export async function withShownPhotographs(opinion: Opinion): Promise<Opinion> {
  const { commission } = opinion;
  if (commission === undefined || commission.photographs.length === 0) return opinion;
  const { default: sharp } = await import('sharp');
  const photographs = [];
  for (const photograph of commission.photographs) {
    try {
      const bytes = await sharp(photograph.bytes)
        .rotate()
        .resize(most_px, most_px, { fit: 'inside', withoutEnlargement: true })
        .flatten({ background: '#fff' })
        .jpeg({ quality: 82 })
        .toBuffer();
      photographs.push({ ...photograph, bytes });
    } catch (error) {
      throw new PaperError(`${photograph.file} is no picture that can be shown: ${String(error)}`);
    }
  }
  return { ...opinion, commission: { ...commission, photographs } };
}
