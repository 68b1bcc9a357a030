"""The audit page's style sheet: one column on a phone, two of drawings on a desk and on A4."""

from __future__ import annotations

from riglint.reports.drawing.signs import coloured

# Every pair of text and ground here has a contrast of at least 4.5 : 1, of other marks 3 : 1. The bar at the left of a
# finding repeats its sign and says nothing by itself.
STYLE = (
    """
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 68rem; padding: 1.25rem 1.25rem 3rem; color: #2b2b2c; background: #ffffff;
  font: 1rem/1.45 system-ui, "Liberation Sans", Arial, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: .8rem; font-weight: 600; margin: 0 0 .4rem; color: #55555a; }
h2 { font-size: 1.3rem; line-height: 1.25; margin: 1.6rem 0 .4rem; }
h3 { font-size: 1.05rem; margin: 1.6rem 0 .5rem; }
h4 { font-size: 1rem; line-height: 1.35; margin: 0 0 .3rem; }
p { margin: .3rem 0; } ul { margin: .4rem 0; padding: 0; list-style: none; } li { margin: .35rem 0; }
a { color: #005387; } a:focus-visible, .drawing:focus-visible { outline: 3px solid #005387; outline-offset: 2px; }
.store { position: absolute; }
.quiet { color: #55555a; font-size: .875rem; }
.sign { display: inline-flex; align-items: center; gap: .3em; border: 1.5px solid #2b2b2c; border-radius: .2em;
  padding: .05em .4em; font-size: .85em; font-weight: 800; letter-spacing: .03em; white-space: nowrap;
  print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.sign svg { width: 1.05em; height: .95em; }
.gravest .sign { font-size: clamp(1.5rem, 6vw, 2.4rem); }
.gravest { margin: 0 0 .3rem; }
.sign.checked { background: #ffffff; color: #2b2b2c; } .sign.unjudged { background: #2b2b2c; color: #ffffff; }
.answer { border: 3px solid #2b2b2c; border-left-width: 10px; padding: .6rem .8rem; max-width: 45rem; }
.own { font-weight: 600; } .profile figure { margin-bottom: .6rem; } .profile + h3 { margin-top: .6rem; }
.closing { font-size: clamp(1.1rem, 4.2vw, 1.5rem); line-height: 1.25; font-weight: 700; max-width: 45rem; }
header h2 { font-size: 1.1rem; margin-top: 1.2rem; }
.stops li { display: grid; grid-template-columns: auto 1fr; gap: 0 .6rem; align-items: start; padding: .3rem 0;
  border-bottom: 1px solid #c6c6c8; }
.stops li .quiet { grid-column: 2; } .kind { white-space: nowrap; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-weight: 600; font-size: .875rem; padding: .6rem 0 .2rem; }
th, td { text-align: left; vertical-align: top; padding: .25rem .6rem .25rem 0; border-bottom: 1px solid #c6c6c8;
  font-weight: 400; }
thead th { font-size: .875rem; font-weight: 600; border-bottom: 2px solid #2b2b2c; overflow-wrap: normal; }
.counts td, .counts thead th:not(:first-child) { text-align: right; padding: .25rem 0 .25rem .9rem; }
.counts .sign { min-width: 8.2em; }
.caution-text { border: 2px solid #2b2b2c; padding: .5rem .8rem; margin: 1rem 0; max-width: 45rem; }
.open { border: 2px dashed #9b2423; padding: .4rem .8rem; margin: .6rem 0; }
.files li { padding: .15rem 0; }
.none { display: inline-block; border: 1px solid #55555a; padding: .05em .4em; font-size: .85em; }
.file { margin-top: 1rem; padding-top: .4rem; border-top: 4px solid #2b2b2c; }
.file > h2 { margin-top: .2rem; }
dl { display: grid; grid-template-columns: 6.2rem 1fr; gap: .15rem .6rem; margin: .3rem 0; }
dt { color: #55555a; } dd { margin: 0; }
.stake { background: #f3f1ec; padding: .5rem .7rem; }
.finding { border: 1px solid #c6c6c8; border-left: .5rem solid; padding: .6rem .8rem; margin: .7rem 0; }
.finding h4 .sign { margin-right: .2rem; } .finding dl { font-size: .95rem; }
.sum { font-family: ui-monospace, "Liberation Mono", monospace; font-size: .875rem; }
.inputs { font-size: .875rem; } .inputs caption { padding-top: .3rem; }
.looks li { display: grid; grid-template-columns: 1.4rem 1fr; }
.tick { width: .9rem; height: .9rem; border: 1.5px solid #2b2b2c; margin-top: .25rem; }
.drawings { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); gap: 0 2.5rem; }
figure { margin: 0 0 1.4rem; } figcaption { font-size: .875rem; color: #55555a; } figcaption b { color: #2b2b2c; }
.drawing svg { display: block; width: 100%; max-width: 32rem; height: auto; }
footer { margin-top: 2rem; }
@media (max-width: 46rem) { .drawings { display: block; } }
@media (max-width: 34rem) {
  body { padding: .8rem .75rem 2rem; } dl { grid-template-columns: 5.6rem 1fr; }
  .counts thead th:not(:first-child), .counts td { padding-left: .5rem; } .counts .quiet { display: block; }
  .inputs td, .inputs th { padding-right: .4rem; }
}
@page { size: A4; margin: 14mm 14mm 16mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 9.5pt; } a { color: inherit; text-decoration: none; }
  .gravest .sign { font-size: 22pt; } .closing { font-size: 14pt; }
  h2, h3, h4 { break-after: avoid; } figure, tr, li, .caution-text, .stake, .open, .answer { break-inside: avoid; }
  .finding { break-inside: avoid; } thead { display: table-header-group; }
  .file + .file { break-before: page; } .file { margin-top: 1rem; }
  .quiet, figcaption, dt, h1 { color: #2b2b2c; } .quiet, figcaption, .inputs, .sum { font-size: 8pt; }
  .drawings { gap: 0 8mm; } .drawing svg { max-height: 235mm; }
}
"""
    + coloured(".finding", "border-left-color")
    + ".sign.look { background: #ffffff; color: #2b2b2c; border: 2px dashed #2b2b2c; }\n"
)
# On a dark screen. Drawings and signs keep their own ground, so that their colours mean the same.
DARK = """
@media screen and (prefers-color-scheme: dark) {
  :root { color-scheme: dark; }
  body { color: #e8e6e1; background: #17181a; }
  h1, .quiet, dt, figcaption { color: #b9b7b2; }
  figcaption b { color: #e8e6e1; }
  a { color: #8cc4ff; }
  .stake { color: #e8e6e1; background: #26282b; }
  .sign { border-color: #e8e6e1; }
  .answer, .caution-text, .tick, thead th { border-color: #e8e6e1; }
  .file { border-top-color: #b9b7b2; }
  .open { border-color: #ff8f87; }
  .drawing svg { background: #ffffff; }
}
"""
