"""The card's style sheet: one column on a phone, one A4 page on paper, black on white for dusk."""

from __future__ import annotations

from riglint.reports.drawing.signs import coloured

# Every pair of text and ground here has a contrast of at least 7 : 1, save the signs with 4.5 : 1.
STYLE = (
    """
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 64rem; padding: 1rem 1rem 2rem; color: #1a1a1b; background: #ffffff;
  font: 1rem/1.4 "Liberation Sans", Arial, system-ui, sans-serif; overflow-wrap: anywhere; }
.store { position: absolute; }
h1 { font-size: 1.6rem; line-height: 1.15; margin: 0 0 .3rem; }
h2 { font-size: 1.05rem; line-height: 1.2; margin: 1.1rem 0 .35rem;
  padding-bottom: .1rem; border-bottom: 2px solid #1a1a1b; }
p { margin: .2rem 0; } ul { margin: 0; padding: 0; list-style: none; }
.sign { display: inline-flex; align-items: center; gap: .3em; border: 1.5px solid #1a1a1b; border-radius: .2em;
  padding: .02em .35em; font-size: .85em; font-weight: 800; letter-spacing: .03em; white-space: nowrap;
  print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.sign svg { width: 1.05em; height: .95em; }
.first { border: .35rem solid #1a1a1b; padding: .5rem .7rem; margin: .7rem 0;
  print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.found h2 { border: 0; margin: .6rem 0 .2rem; } .found li { margin: .3rem 0; }
.verdict { font-size: 1.35rem; line-height: 1.2; font-weight: 800; margin: 0 0 .3rem; }
.top { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); gap: 0 2rem; align-items: start; }
.top h2:first-child { margin-top: .6rem; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; font-size: .9rem; }
th, td { text-align: left; vertical-align: top; padding: .2rem .4rem .2rem 0; border-bottom: 1px solid #b4b4b8; }
th { font-weight: 600; border-bottom: 1.5px solid #1a1a1b; overflow-wrap: normal; }
th:nth-child(n + 3), td:nth-child(n + 3) { text-align: right;
  white-space: nowrap; padding-right: 0; padding-left: .6rem; }
th:not(:nth-child(2)) { width: 1%; } th:last-child { white-space: normal; }
.piece { padding-left: .8rem; } td b { font-weight: 600; } .take { color: #3c3c40; }
.short { background: #f3f1ec; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .15rem .7rem; margin: 0; }
dt { font-weight: 600; } dd { margin: 0; }
.stop ul { list-style: square; padding-left: 1.1rem; } .stop li { margin: .15rem 0; }
.work { columns: 2; column-gap: 2rem; margin-top: .6rem; } .work h2 { break-after: avoid; }
.work li, .last-look li { margin: .2rem 0; break-inside: avoid; }
.tick { width: 1.3rem; height: 1.3rem; border: 2px solid #1a1a1b; margin-top: .05rem; }
.second { border: 1.5px solid #1a1a1b; border-radius: .2em; padding: 0 .3em; font-size: .85em; white-space: nowrap; }
figure { margin: .6rem 0 0; } figcaption { font-size: .8rem; color: #3c3c40; }
.drawing svg { display: block; width: 100%; height: auto; }
.caution { margin-top: 1.2rem; border: 2px solid #1a1a1b; padding: .4rem .7rem; }
@media screen and (max-width: 44rem) {
  body { padding: .7rem .75rem 2rem; font-size: 1.05rem; } .top { display: block; } .work { columns: 1; }
  .figures { display: flex; flex-direction: column; } .tick { width: 1.6rem; height: 1.6rem; }
}
.legend { display: none; }
@page { size: A4; margin: 7mm 9mm 8mm;
  @bottom-right { content: "page " counter(page) " of " counter(pages);
    font: 8pt "Liberation Sans", Arial, sans-serif; } }
@media print {
  body { max-width: none; padding: 0; font-size: 8pt; line-height: 1.12; color: #000000; }
  h1 { font-size: 14pt; margin-bottom: 1pt; }
  h2 { font-size: 9pt; margin: 3.2pt 0 1pt; padding-bottom: 0; border-bottom-width: 1pt; break-after: avoid; }
  p { margin: 1pt 0; } table { font-size: 8pt; } th, td { padding: .4pt 2pt .4pt 0; border-bottom-width: .5pt; }
  th:nth-child(n + 3), td:nth-child(n + 3) { padding-left: 4pt; }
  .sign, .second { font-size: 8pt; }
  section:not(.found), .caution, tr, li, figure { break-inside: avoid; }
  thead { display: table-header-group; }
  .sheet { columns: 2; column-gap: 6mm; column-fill: balance; }
  .top { display: block; } .work { columns: auto; margin: 0; }
  .top h2:first-child { margin-top: 1pt; } .take, figcaption { color: #000000; }
  figure { margin: 2pt 0 0; } figcaption { display: none; }
  .legend { display: block; text-align: center; font-size: 8pt; }
  .drawing svg { max-height: 50mm; } .piece { padding-left: 5pt; }
  dl { gap: .5pt 2mm; } .pack dl { display: block; } .pack dt, .pack dd { display: inline; }
  .pack dt::after { content: " "; }
  .pack dd:not(:last-child)::after { content: "; "; }
  .stop li { margin: 0; } .stop ul { padding-left: 8pt; }
  .work li, .last-look li { margin: 1.1pt 0; }
  .tick { width: 3.4mm; height: 3.4mm; border-width: 1pt; margin-top: .2pt; } .second { border-width: .75pt; }
  .verdict { font-size: 12pt; } .first { border-width: 2.5pt; padding: 2pt 5pt; margin: 3pt 0; }
  .first li, .found li { margin: 1pt 0; } .sign-here dd, .hand { padding-top: 4pt; }
  .caution { margin-top: 4pt; padding: 1.5pt 4pt; border-width: 1pt; }
}
"""
    + coloured(".first", "border-color")
    + ".sign.look { background: #ffffff; color: #1a1a1b; border: 2px dashed #1a1a1b; }\n"
    + ".sign.checked { background: #ffffff; color: #1a1a1b; }\n"
    + ".sign.unjudged { background: #1a1a1b; color: #ffffff; }\n"
)
