/** The look of every document: ink on paper, a running stitch for a rule, nothing fetched from anywhere. */
export const STYLE = `
:root { color-scheme: light; --ink: #1f2a44; --soft: #4c5468; --line: #767b88; --cloth: #f4f2ea; --thread: #2f5d46; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; padding: 1.25rem; max-width: 52rem; color: var(--ink); background: #fff;
  font: 1rem/1.5 "Charter", "Bitstream Charter", "Source Serif 4", "Liberation Serif", Georgia, serif; overflow-wrap: break-word; }
header, main, footer { display: block; }
.head { display: flex; flex-wrap: wrap; gap: .5rem 1.5rem; align-items: center; justify-content: space-between; }
.head p { margin: 0; }
.studio { font-weight: 700; font-size: 1.125rem; }
.contact { color: var(--soft); }
.logo { max-height: 4rem; max-width: 12rem; }
h1 { font-size: 1.75rem; line-height: 1.2; margin: 1.25rem 0 .75rem; text-wrap: balance; }
h2 { font-size: 1.25rem; line-height: 1.25; margin: 0 0 .6rem; }
h3 { font-size: 1.05rem; margin: 1.1rem 0 .4rem; }
section { margin: 1.6rem 0 0; padding-top: 1.1rem;
  background: repeating-linear-gradient(90deg, var(--thread) 0 .7rem, transparent .7rem 1.1rem) top left / 100% 2px no-repeat; }
section.apart { border: 3px double var(--ink); padding: 1.1rem 1.2rem; background: var(--cloth); }
p { margin: 0 0 .7rem; }
.lead { font-size: 1.15rem; }
.small { font-size: .9rem; color: var(--soft); }
ul, ol { margin: 0 0 .8rem; padding-left: 1.4rem; }
li { margin: 0 0 .35rem; }
sup a { color: var(--ink); padding: 0 .15em; }
table { border-collapse: collapse; width: 100%; margin: 0 0 .9rem; }
caption { text-align: left; font-weight: 700; padding: 0 0 .4rem; }
caption.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
th, td { text-align: left; vertical-align: top; padding: .35rem .6rem .35rem 0; border-top: 1px solid var(--line); hyphens: auto; }
table.facts th { width: 11rem; font-weight: 700; }
table.facts td { overflow-wrap: anywhere; }
table.particulars { font-size: .9rem; }
table.particulars tbody { display: flex; flex-wrap: wrap; gap: .1rem 1.6rem; border-top: 1px solid var(--line); padding-top: .4rem; }
table.particulars tr { display: flex; gap: .4rem; }
table.particulars th, table.particulars td { border: 0; padding: 0; width: auto; }
table.particulars th { font-weight: 400; color: var(--soft); }
table.figures td:not(:first-child), table.figures thead th:not(:first-child) { padding-left: .6rem; }
table.compare { table-layout: fixed; font-size: .9rem; line-height: 1.4; }
table.compare thead th { border-top: 0; border-bottom: 2px solid var(--ink); }
table.compare tbody th { padding-top: .7rem; border-top: 2px solid var(--ink); font-size: 1rem; }
table.compare tbody td { border-top: 0; border-left: 1px dotted var(--line); padding-left: .5rem; }
table.compare thead th + th { padding-left: .5rem; border-left: 1px dotted var(--line); }
table.compare tbody td:first-child { border-left: 0; padding-left: 0; }
table.compare p { margin: 0 0 .3rem; }
figure { margin: 1rem 0; }
figcaption { font-weight: 700; margin: 0 0 .4rem; }
figure svg.quilt { display: block; width: 100%; max-width: 34rem; height: auto; max-height: 44rem; }
figure svg.quilt.dense { max-width: 46rem; max-height: none; }
figure svg.chart { display: block; width: 100%; height: auto; max-width: 44rem; }
figure svg text.halo { paint-order: stroke; stroke: #fff; stroke-width: 4px; stroke-linejoin: round; }
figure img { max-width: 100%; height: auto; }
.key { list-style: none; display: flex; flex-wrap: wrap; gap: .35rem 1.25rem; padding: 0; margin: .5rem 0 0; font-size: .95rem; }
.key li { display: flex; gap: .45rem; align-items: center; margin: 0; }
.swatch { flex: none; }
fieldset { border: 0; margin: .8rem 0; padding: 0; }
.choices { list-style: none; padding: 0; }
.choices li { display: flex; gap: .6rem; align-items: baseline; }
.box { flex: none; width: 1em; height: 1em; border: 1.5px solid var(--ink); transform: translateY(.12em); }
.rule { height: 2.2rem; border-bottom: 1px solid var(--line); margin: 0; }
.signatures { display: flex; flex-wrap: wrap; gap: 1.5rem; margin: 2.2rem 0 .5rem; padding: 0; list-style: none; }
.signatures li { flex: 1 1 12rem; border-top: 1px solid var(--ink); padding-top: .25rem; font-size: .9rem; }
address { font-style: normal; margin: 1.2rem 0; }
footer { margin-top: 2rem; font-size: .85rem; color: var(--soft); }
@media (max-width: 35rem) {
  body { padding: .9rem; }
  table.compare, table.compare thead, table.compare tbody, table.compare tr, table.compare th, table.compare td { display: block; width: auto; }
  table.compare thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  table.compare tbody td, table.compare tbody td:first-child { border: 0; padding: 0 0 .4rem; }
  table.compare td::before { content: attr(data-option); font-weight: 700; }
  table.figures { font-size: .85rem; }
  table.figures th, table.figures td { padding-right: .3rem; overflow-wrap: break-word; }
  table.facts th, table.facts td, table.particulars th, table.particulars td { display: block; width: auto; }
  table.facts td, table.particulars td { border-top: 0; padding-top: 0; }
}
@media screen and (max-width: 35rem) {
  table.stacks, table.stacks caption, table.stacks tbody, table.stacks tr, table.stacks th, table.stacks td { display: block; width: auto; }
  table.stacks thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  table.stacks tbody td, table.stacks tbody td:not(:first-child) { border: 0; padding: 0 0 .1rem; }
  table.stacks tbody tr { padding-bottom: .4rem; }
  table.stacks td::before { content: attr(data-column) ": "; color: var(--soft); }
}
@page { margin: 17mm 16mm 18mm; @bottom-right { content: counter(page) " / " counter(pages); font: 9pt serif; } }
@media print {
  body { max-width: none; padding: 0; font-size: 10pt; line-height: 1.38; orphans: 3; widows: 3; }
  h1, h2, h3, caption, figcaption { break-after: avoid; }
  tr, li, figure, .signatures, .lead { break-inside: avoid; }
  table.compare tbody { break-inside: avoid; }
  thead { display: table-header-group; break-after: avoid; }
  table.short { break-inside: avoid; }
  table.figures tbody tr:first-child, table.facts tbody tr:first-child { break-before: avoid; }
  table.compare { font-size: 8.4pt; line-height: 1.3; }
  table.compare tbody th { padding-top: .3rem; padding-bottom: .1rem; }
  table.compare p { margin-bottom: .08rem; }
  table.compare tbody td { padding-top: .15rem; padding-bottom: .15rem; }
  li { margin-bottom: .2rem; }
  table.compare tbody th { font-size: 9.5pt; }
  section { break-inside: auto; margin-top: 5mm; padding-top: 4mm; }
  section.apart { break-inside: avoid; }
  .hold, section:has(.choices):has(.signatures) { break-inside: avoid; }
  footer { display: none; }
  figure svg.quilt { max-height: 86mm; max-width: 112mm; }
  figure svg.quilt.dense { max-height: 165mm; max-width: 165mm; }
  .pictures figure:has(.dense) { grid-column: 1 / -1; }
  section.page { break-before: page; margin-top: 0; }
  .pictures { display: grid; grid-template-columns: 1fr 1fr; gap: 0 6mm; }
  table.facts th, table.facts td { padding-top: .22rem; padding-bottom: .22rem; }
  * { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`;
