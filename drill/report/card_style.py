"""How a service card looks: one sheet that fits A4 and Letter, in colour or without."""

# A4 is the narrower paper and Letter the lower one: inside their margins both hold 192 by 263 millimetres.
STYLE = """
@page { margin: 8mm 9mm; }
* { box-sizing: border-box; margin: 0; padding: 0; }
html { background: #ffffff; color: #141414; }
body { font-family: Arial, "Liberation Sans", Helvetica, sans-serif; line-height: 1.14;
  -webkit-print-color-adjust: exact; print-color-adjust: exact; }
.card { width: 192mm; margin: 0 auto; display: flex; flex-direction: column; gap: 0.9mm;
  overflow-wrap: anywhere; }
.roomy { font-size: 8.6pt; } .even { font-size: 7.7pt; } .close { font-size: 7pt; }
.tight { font-size: 6.4pt; } .tightest { font-size: 6.2pt; }
.fullest { font-size: 6.05pt; gap: 0.6mm; line-height: 1.1; }
h1 { font-size: 14pt; line-height: 1.1; } h2 { font-size: 1.08em; margin-bottom: 0.5mm; color: #0b4a6f; }
header { display: flex; justify-content: space-between; gap: 4mm; align-items: flex-start;
  border-bottom: 0.6mm solid #0b4a6f; padding-bottom: 1mm; }
header p { margin-top: 0.6mm; }
.verdict { border: 0.6mm solid #141414; padding: 1mm 2.6mm; font-weight: bold; font-size: 11.5pt;
  text-align: center; white-space: nowrap; }
.stopped { background: #141414; color: #ffffff; }
.blanks { display: flex; gap: 4mm; } .blanks span { flex: 1; border-bottom: 0.2mm solid #141414;
  padding-top: 2.2mm; white-space: nowrap; color: #3c3c3c; font-size: 0.94em; }
.aid { border: 0.6mm solid #8c1d18; border-left-width: 2.4mm; padding: 1.1mm 1.8mm; }
.aid h2 { color: #8c1d18; } .aid ul { columns: 2; column-gap: 5mm; }
.aid li::before { content: "!"; font-weight: bold; color: #8c1d18; }
.columns { columns: 3; column-gap: 4mm; column-rule: 0.15mm solid #b5b5b5; }
.two { columns: 2; column-gap: 5mm; }
ul, ol { list-style: none; } li { break-inside: avoid; padding-left: 3.2mm; text-indent: -3.2mm;
  padding-bottom: 0.2mm; }
li::before { content: "\\25AB"; display: inline-block; width: 3.2mm; text-indent: 0; }
.steps li::before { content: "\\25A1"; }
.steps li.stop { border: 0.45mm solid #141414; padding: 0.4mm 1.4mm 0.7mm; text-indent: 0; font-weight: bold;
  margin: 0.4mm 0 0.6mm; background: #ececec; }
.steps li.stop::before { content: none; }
.steps li.stop { display: flex; gap: 1.6mm; align-items: flex-end; white-space: nowrap; }
.stop .sign { flex: 1; font-weight: normal; font-size: 0.94em; padding-top: 1.6mm;
  border-bottom: 0.2mm solid #141414; }
.asked li { padding-bottom: 1mm; } .asked ol { counter-reset: order; } .asked li { counter-increment: order; }
.asked li::before { content: counter(order) "."; }
.asked .answer { display: block; text-indent: 0;
  border-bottom: 0.2mm solid #8d8d8d; height: 5.5mm; }
.why { color: #3c3c3c; }
.views { display: flex; gap: 2mm; } .views figure { flex: 1; text-align: center; }
.views svg { width: 100%; height: 37mm; display: block; } .tightest .views svg { height: 33mm; }
.fullest .views svg { height: 27mm; }
.views figcaption { font-size: 0.94em; }
.time .line { display: flex; align-items: stretch; border: 0.3mm solid #141414; }
.time .phase { flex-basis: 0; padding: 0.5mm 0.8mm; border-left: 0.15mm solid #8d8d8d;
  text-align: center; line-height: 1.05; font-size: 0.94em; overflow-wrap: normal; }
.time .phase:first-child { border-left: 0; } .time .phase strong { display: block; font-size: 1.15em; }
.time .halt { background: #141414; color: #ffffff; font-weight: bold; padding: 0 1mm; display: flex;
  align-items: center; }
.beside { display: flex; gap: 4mm; align-items: flex-start; } .beside > :first-child { flex: 1.5; }
.beside > :last-child { flex: 1; }
.beside section + section { margin-top: 0.8mm; }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; padding: 0.15mm 1.3mm;
  border-bottom: 0.15mm solid #b5b5b5; vertical-align: top; }
thead th { border-bottom: 0.4mm solid #141414; font-size: 0.94em; } td.number { white-space: nowrap; }
tbody tr:nth-child(even) { background: #f4f1ee; } tfoot td { border: 0; font-weight: bold; }
footer { border-top: 0.4mm solid #0b4a6f; padding-top: 0.9mm; font-size: 0.94em; }
section.limit { border: 0.45mm solid #141414; padding: 1mm 1.8mm; margin: 0.8mm 0; }
.limit div { display: flex; flex-wrap: wrap; gap: 0 3mm; }
.limit p { border-bottom: 0.2mm solid #141414; padding-top: 2mm; color: #3c3c3c; font-size: 0.94em;
  flex: 1 1 44%; white-space: nowrap; }
.limit p:first-child { flex-basis: 100%; }
@media screen { html { background: #d9d9d9; } .card { background: #ffffff; margin: 6mm auto; padding: 0;
  outline: 6mm solid #ffffff; } }
"""
