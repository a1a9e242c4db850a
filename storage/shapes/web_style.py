"""How the page looks, on screens and printed; colours as pairs of ink and ground."""

PAIRS = {
    "text": ("#172129", "#ffffff"),
    "quiet": ("#4a5a60", "#ffffff"),
    "head": ("#0d4d54", "#ffffff"),
    "fails": ("#8c150f", "#ffffff"),
    "banner": ("#0d4d54", "#f1f7f7"),
    "bad": ("#ffffff", "#8c150f"),
    "link": ("#0b5c66", "#ffffff"),
}
"""Each is readable: 4.5 to 1 at least, as WCAG 2.2 asks in success criterion 1.4.3."""

STYLE = (
    f"body{{margin:0 auto;max-width:75rem;padding:1rem;font-family:sans-serif;font-size:1rem;line-height:1.5;"
    f"color:{PAIRS['text'][0]};background:{PAIRS['text'][1]};overflow-wrap:anywhere}}"
    f"img{{max-width:100%;height:auto}}"
    f"h1,h2,h3{{color:{PAIRS['head'][0]};line-height:1.2}}"
    f"h2{{border-top:2px solid {PAIRS['head'][0]};padding-top:.75rem;margin-top:2rem}}"
    f"a{{color:{PAIRS['link'][0]}}}"
    f".skip{{position:absolute;left:-100rem}}.skip:focus{{position:static}}"
    f".small,dt,caption{{color:{PAIRS['quiet'][0]};font-size:.875rem}}"
    "caption{text-align:left;padding:.25rem 0}"
    "dl{display:grid;grid-template-columns:repeat(auto-fill,minmax(16rem,1fr));gap:.5rem 1rem;margin:.5rem 0}"
    "dl div{border-left:3px solid #a9b7bb;padding-left:.5rem}dd{margin:0}"
    "table{border-collapse:collapse;width:100%}"
    "td,th{border:1px solid #7b8a90;padding:.25rem .4rem;text-align:left;vertical-align:top}"
    f"thead th{{color:{PAIRS['head'][0]}}}"
    ".scroll{overflow-x:auto}.scroll td,.scroll th{overflow-wrap:normal}"
    f".fails{{color:{PAIRS['fails'][0]}}}"
    ".ours{font-style:italic}"
    ".blank{border:1px dashed #4a5a60;padding:0 .25rem}"
    f".banner{{color:{PAIRS['banner'][0]};background:{PAIRS['banner'][1]};border:3px solid;padding:.5rem 1rem}}"
    f".banner.bad{{color:{PAIRS['bad'][0]};background:{PAIRS['bad'][1]}}}"
    ".banner p{margin:.25rem 0}.says{font-size:1.5rem;font-weight:bold}"
    "@page{size:A4;margin:14mm}@page wide{size:A4 landscape;margin:10mm}"
    "@media print{body{font-size:9pt;padding:0;max-width:none}nav,.skip{display:none}.wide{page:wide}"
    ".wide table{font-size:6.5pt}.scroll{overflow:visible}thead{display:table-header-group}"
    "tr,dl div{break-inside:avoid}h2,h3{break-after:avoid}}"
)
