/** Mean width of a character in our system fonts at size 1, a little on the generous side. */
const characterWidth = 0.57;

export function estimatedWidth(text: string, size: number): number {
  return [...text].length * size * characterWidth;
}

/** Breaks text at spaces (inside a word only where it is longer than a line). */
export function wrapText(text: string, width: number, size: number): string[] {
  const room = Math.max(4, Math.floor(width / (size * characterWidth)));
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((each) => pieces(each, room))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if ([...longer].length <= room) {
      line = longer;
    } else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

function pieces(word: string, room: number): string[] {
  const characters = [...word];
  if (characters.length <= room) return [word];
  return [characters.slice(0, room).join(''), ...pieces(characters.slice(room).join(''), room)];
}

/** Cuts the middle out of a text that is too wide, because names tend to differ at their ends. */
export function shortenMiddle(text: string, width: number, size: number): string {
  const characters = [...text];
  const room = Math.max(3, Math.floor(width / (size * characterWidth)));
  if (characters.length <= room) return text;
  const head = Math.ceil((room - 1) / 2);
  const tail = room - 1 - head;
  return `${characters.slice(0, head).join('')}…${tail === 0 ? '' : characters.slice(-tail).join('')}`;
}
