package guide

// pageStyle is the style of every page: dark ink on light, or light on dark where
// the reader's screen asks for it, always dark on light in print. It is a quiet
// page of black letters in the browser's own fonts.
const pageStyle = `:root{color-scheme:light dark;--ink:#1a1a1a;--soft:#555;--rule:#999;--paper:#fff}
@media (prefers-color-scheme:dark){:root{--ink:#e8e8e8;--soft:#b4b4b4;--rule:#777;--paper:#161616}}
@media print{:root{color-scheme:light;--ink:#000;--soft:#333;--rule:#777;--paper:#fff}}
*{box-sizing:border-box}
body{margin:0 auto;padding:1rem;max-width:190mm;color:var(--ink);background:var(--paper);font:11pt/1.4 Georgia,"Liberation Serif",serif;overflow-wrap:break-word}
h1,h2,h3,th,.work>li::marker,figcaption,strong,.fill{font-family:Helvetica,Arial,"Liberation Sans",sans-serif}
h1{font-size:20pt;line-height:1.2;margin:0 0 6mm}
h2{font-size:14pt;margin:8mm 0 3mm;border-bottom:.3mm solid var(--rule)}
h3{font-size:11pt;margin:5mm 0 1mm}
p,ul,ol,table{margin:0 0 3mm}
table{border-collapse:collapse;font-size:10pt}
th,td{text-align:left;vertical-align:baseline;font-weight:normal;padding:.6mm 4mm .6mm 0;border-bottom:.2mm solid var(--rule)}
thead th{color:var(--soft);vertical-align:bottom}
ul{font-size:10pt;padding-left:6mm}
.n{text-align:right;font-variant-numeric:tabular-nums}
.work{padding-left:9mm}
.work>li{margin:0 0 3mm;padding-left:1mm}
.step{display:flex;flex-wrap:wrap;gap:2mm 6mm;align-items:start}
.step>div{flex:1 1 70mm}
.step>figure{flex:none;margin:0}
.work>li::marker{font-size:9pt;color:var(--soft)}
input{appearance:none;width:3.2mm;height:3.2mm;margin:0 1mm 0 0;border:.3mm solid var(--ink);vertical-align:-.3mm}
input:checked{background:var(--ink)}
input:focus-visible{outline:.6mm solid;outline-offset:.6mm}
label{cursor:default}
strong{font-size:8pt;font-weight:normal;border:.2mm solid var(--ink);padding:0 1mm;white-space:nowrap}
.note{margin:1mm 0 0;color:var(--soft);font-style:italic}
.fill{display:flex;gap:3mm;align-items:end;margin:4mm 0 0;font-size:10pt}
.fill span{flex:1;max-width:80mm;border-bottom:.3mm solid var(--ink)}
.beside{float:left;margin:0 8mm 4mm 0}
table:has(>thead),.figures,h2{clear:both}
.figures{display:flex;flex-wrap:wrap;gap:4mm 8mm;align-items:end}
figure{margin:3mm 0;max-width:100%}
figure>svg{display:block;max-width:100%;max-height:225mm;height:auto}
.scale>svg,.tile>svg{max-width:none;max-height:none}
figcaption{font-size:9pt;color:var(--soft);margin-top:1mm}
@media screen{.scale,.tile{overflow-x:auto}}
@media print{
body{max-width:none;padding:0}
h2,h3,thead{break-after:avoid}
.page{break-before:page}
figure,tr,.work>li{break-inside:avoid}
p,li{orphans:3;widows:3}
thead{display:table-header-group}
}
@page{@bottom-center{content:counter(page) ' / ' counter(pages);font:8pt Helvetica,Arial,'Liberation Sans',sans-serif;color:#333}}
`
