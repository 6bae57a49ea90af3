import { escapeHtml } from '../../charts/escape-html.js';

/** A page to print on A4, of parts that are HTML already: whoever makes them escapes every word of the plan. */
export function printPage(title: string, parts: readonly string[]): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(title)}</title>
<style>${style}</style>
</head>
<body>
${parts.join('\n')}
</body>
</html>
`;
}

const style = `
@page { size: A4 portrait; margin: 14mm 14mm 16mm; @bottom-right { content: counter(page) " / " counter(pages); font: 9pt sans-serif; } }
* { box-sizing: border-box; }
body { font: 11pt/1.4 system-ui, "Liberation Sans", sans-serif; color: #000; background: #fff; max-width: 182mm; margin: 0 auto; padding: 4mm; overflow-wrap: anywhere; }
@media print { body { padding: 0; max-width: none; } }
h1 { font-size: 17pt; margin: 0 0 3mm; } h2 { font-size: 13pt; margin: 6mm 0 2mm; break-after: avoid; } p { margin: 0 0 3mm; }
table { border-collapse: collapse; width: 100%; } th, td { border: 0.3mm solid #555; padding: 1.5mm 2mm; text-align: left; font-weight: normal; height: 8mm; }
thead th { background: #eee; font-size: 9.5pt; print-color-adjust: exact; } tr { break-inside: avoid; }
.sealed { break-after: page; min-height: 240mm; display: flex; flex-direction: column; justify-content: space-between; }
.sealed:last-child { break-after: auto; }
.outside { border: 0.5mm solid #000; padding: 6mm; text-align: center; } .outside b { font-size: 26pt; display: block; }
.inside { border-top: 0.3mm dashed #555; padding-top: 8mm; text-align: center; } .inside b { font-size: 30pt; display: block; margin: 3mm 0; }
.labels { display: grid; grid-template-columns: repeat(3, 1fr); gap: 4mm; }
.label { border: 0.3mm dashed #777; height: 32mm; display: flex; flex-direction: column; align-items: center; justify-content: center; break-inside: avoid; }
.label b { font-size: 24pt; letter-spacing: 0.08em; } .code { letter-spacing: 0.08em; }
small { color: #444; }
`;
