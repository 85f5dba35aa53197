/** Words of headings that say where a channel was measured, folded; seven languages. Common practice, no source. */
const POSITIONS: readonly (readonly [string, RegExp])[] = [
  ["difference", /\bdifferen\w*\b|\bdiff\b|\bdelta\b|\bdp\b|differenzdruck|\bdifferenziale\b|\bdiferencial\b|\bverschil\w*\b/],
  [
    "far end",
    /\bfar end\b|\bfar point\b|\bfurthest\b|\bremote\b|\bend of (?:the )?(?:line|pipe)\b|\bnetzende\b|\bstrangende\b|\bentfernt\w*\b|\bbout de (?:reseau|ligne)\b|\bextremite\b|\bextremo\b|\bfinal de linea\b|\bfondo linea\b|\bfine linea\b|\bextremidade\b|\bfim de linha\b|\beinde leiding\b|\bverste punt\b/,
  ],
  [
    "suction",
    /\bsuction\b|\binlet\b|\bintake\b|saug\w*|\baspiration\b|\bsuccion\b|\bsuccao\b|\baspirazione\b|\bzuig\w*\b|\bsuct\b|\bentree\b|\badmission\b|\baspiracion\b|\basp\b|\binl\b|\bp(?:r\w*)? in\b|\bsuc\b|\bingresso\b|\bentrada\b|\beingang\w*\b|\beinlass\b|\bzulauf\w*|\binlaat\b|\bvordruck\b|\bvoordruk\b/,
  ],
  [
    "discharge",
    /\bdischarge\b|\boutlet\b|\bdelivery\b|\bdruckseite\b|\bdruckseitig\b|\brefoulement\b|\bdescarga\b|\bimpulsion\b|\bmandata\b|\bpers\w*\b|\brecalque\b|\bsortie\b|\bdisch\b|\bausgang\b|\bauslass\b|\benddruck\b|\bref\b|\bdis\b|\bdisc\b|\bdischg\b|\bout\b|\bmand\b|\bsaida\b|\bsalida\b|\buscita\b|\buitlaat\b|\bdruckstutzen\b|\bforderdruck\b/,
  ],
  [
    "tank",
    /\btank\w*|\bvessel\b|behalter\w*|kessel\w*|\bmembran\w*|\breservoir\b|\bballon\b|\btanque\b|\bdeposito\b|\bserbatoio\b|\bvat\b|\bketel\b|\bcuve\b|\bhydrophore\b|\bvaso\b/,
  ],
  [
    "upstream",
    /\bupstream\b|\bbefore\b|\bvor\b|\bamont\b|\baguas arriba\b|\bmontante\b|\bmonte\b|\bstroomopwaarts\b|\bantes\b|\bavant\b|\bprima\b|\bvoor\b/,
  ],
  [
    "downstream",
    /\bdownstream\b|\bafter\b|\bnach\b|\baval\b|\baguas abajo\b|\bjusante\b|\bvalle\b|\bstroomafwaarts\b|\bdespues\b|\bapres\b|\bdopo\b|\bna\b|\bdepois\b/,
  ],
  [
    "system",
    /\bsystem\b|\bnetwork\b|\bnetz\w*\b|\breseau\b|\bred\b|\brede\b|\brete\b|\bnet\b|\bmain\b|\bheader\b|\bmanifold\b|\bbuilding\b|\bhouse\b|\bhaus\b|\bsysteme\b|\bsistema\b|\bsysteem\b|\bsystemdruck\b/,
  ],
  ["sensor", /\bsensor\b|\btransducer\b|\bgeber\b|\bfuhler\b|\bcapteur\b|\bsonda\b|\bsensore\b|\bopnemer\b|\btransmitter\b/],
  ["drive", /\bdrive\b|\bvfd\b|\bvsd\b|\binverter\b|umrichter\w*|\bvariateur\b|\bvariador\b|\binversor\b/],
  ["motor", /\bmotor\w*\b|\bmoteur\b|\bmotore\b/],
  ["pump", /\bpumps?\b|pumpe\w*|\bpompe?\b|\bbombas?\b|\bpompa\b|\bpomp\b|\bpmp\b/],
  ["top", /\btop\b|\bupper\b|\boben\b/],
  ["bottom", /\bbottom\b|\blower\b|\bunten\b/],
];

/** Where a channel was measured, by the words of its folded heading: "tank", "suction", "pump 2"; null where it does not say. */
export function findPosition(words: string): string | null {
  const found = POSITIONS.filter(([, pattern]) => pattern.test(words));
  if (found.length === 0) return null;
  const [name] = found[0];
  const number = new RegExp(`(?:${found[0][1].source}) ?(\\d{1,2}|(?<= )[a-d])\\b`).exec(words);
  const digits = number === null ? undefined : number[number.length - 1];
  return digits === undefined ? name : `${name} ${digits}`;
}
