/*
 * Sources. Codes: DICOM PS3.16, context groups 12291, 3827 and 4 (sites), 244 (side), 2 and 12116 (position), and the
 * SRT spellings of the same concepts from the mapping of that part. Words: common practice of reports and sheets in
 * six languages, with the Latin terms of the anatomical nomenclature; they are recalled and have no single source.
 * Every row was written by hand from the words, not taken out of the program's table.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { interpret } from "../../src/anatomy/interpret.ts";
import { placeDistalToLeftSubclavian, placeTable } from "../../src/anatomy/places.ts";
import { reportTerms, sheetTerms, term } from "../anatomy/sample-terms.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });
const placeOf = (words: string): string => {
  const read = interpret(sheetTerms(words), dictionary);
  return "problem" in read ? read.problem : read.place.id;
};

/** Site, side and position as codes; "-" where none is stated. */
const codes = `
  SCT:77583004 - - aortic-annulus
  SRT:T-35410 - - aortic-annulus
  SCT:8128003 - - aortic-root
  SRT:T-42110 - - aortic-root
  SCT:81128002 - - sinuses-of-valsalva
  SRT:T-42200 - - sinuses-of-valsalva
  SCT:443167003 - - sinotubular-junction
  SRT:T-42102 - - sinotubular-junction
  SCT:54247002 - - ascending-aorta
  SRT:T-42100 - - ascending-aorta
  SCT:54247002 - NCIt:C25569 mid-ascending
  SRT:T-42100 - NCIt:C25569 mid-ascending
  SCT:57034009 - - aortic-arch
  SCT:57034009 - SCT:40415009 proximal-arch
  SRT:T-42300 - SRT:G-A118 proximal-arch
  SCT:57034009 - NCIt:C25569 mid-arch
  SCT:88593004 - - aortic-isthmus
  SRT:T-42310 - - aortic-isthmus
  SCT:32672002 - - descending-thoracic-aorta
  SRT:T-42400 - SRT:G-A118 proximal-descending
  SCT:32672002 - NCIt:C25569 mid-descending
  SCT:113262008 - - thoracic-aorta
  SCT:7832008 - - abdominal-aorta
  SCT:1918003 - - suprarenal-aorta
  SRT:T-42520 - - zone-9
  SCT:73166001 - - aortic-bifurcation
  SCT:12691009 - - innominate-artery
  SCT:113263003 - - left-common-carotid-artery
  SCT:32062004 SCT:7771000 - left-common-carotid-artery
  SRT:T-45100 SRT:G-A100 - right-common-carotid-artery
  SRT:T-46120 - - left-subclavian-artery
  SCT:36765005 SCT:24028007 - right-subclavian-artery
  SCT:85234005 SCT:7771000 - left-vertebral-artery
  SRT:T-45700 SRT:G-A100 - right-vertebral-artery
  SCT:41801008 SCT:24028007 - right-coronary-artery
  SRT:T-43000 SRT:G-A101 - left-coronary-artery
  SCT:57850000 - - coeliac-artery
  SCT:42258001 - - superior-mesenteric-artery
  SRT:T-46520 - - inferior-mesenteric-artery
  SCT:2841007 SCT:24028007 - right-renal-artery
  SRT:T-46600 SRT:G-A101 - left-renal-artery
  SCT:73634005 SCT:7771000 - zone-10-left
  SRT:T-46710 SRT:G-A100 - zone-10-right
  SCT:113269004 SCT:24028007 - zone-11-right
  SRT:T-46740 SRT:G-A101 - left-internal-iliac-artery
  SCT:181347005 SCT:7771000 - left-common-femoral-artery
`;

/** Place id: spellings, separated by semicolons. */
const words = `
  aortic-annulus: annulus; Aortic valve annulus; Aortenannulus; Aortenklappenring; anneau aortique; anillo aórtico; anello aortico; aortaklepannulus
  aortic-root: root; Ao root; Aortenwurzel; racine de l'aorte; racine aortique; raíz aórtica; raiz aortica; radice aortica; aortawortel
  sinuses-of-valsalva: SoV; SOV; Sinus of Valsalva; aortic sinuses; Sinus Valsalvae; sinus de Valsalva; senos de Valsalva; seni di Valsalva; sinus van Valsalva
  sinotubular-junction: STJ; ST junction; Sino-tubular junction; Sinotubulärer Übergang; sinotubulaerer Uebergang; jonction sino-tubulaire; unión sinotubular; union sinotubular; giunzione seno-tubulare; sinotubulaire overgang
  ascending-aorta: Asc Ao; AscAo; asc. aorta; Ascending; Aorta, ascending; ascending thoracic aorta; Aorta ascendens; aorte ascendante; aorte thoracique ascendante; aorta ascendente; aorta torácica ascendente
  mid-ascending: mid AscAo; mid-asc Ao; Middle ascending aorta; mittlere Aorta ascendens; aorte ascendante moyenne; aorta ascendente media; mid aorta ascendens
  aortic-arch: Arch; Ao arch; arch of the aorta; Aortenbogen; Arcus aortae; crosse de l’aorte; arc aortique; arco aórtico; cayado aórtico; arco dell'aorta; aortaboog
  proximal-arch: Prox. arch; proximaler Aortenbogen; crosse proximale; arco aórtico proximal; arco prossimale; proximale aortaboog
  mid-arch: mid arch; mid-Ao arch; mittlerer Aortenbogen; crosse aortique moyenne; arco aórtico medio; aortaboog midden
  aortic-isthmus: Isthmus; aortic isthmus; Aortenisthmus; isthme aortique; istmo aórtico; istmo aortico; aorta-isthmus
  descending-thoracic-aorta: DTA; desc Ao; DescAo; Descending aorta; Aorta descendens; aorte descendante; aorta descendente; aorta torácica descendente; aorta discendente; dalende aorta
  proximal-descending: prox DTA; Prox desc Ao; proximal DescAo; proximale Aorta descendens; aorte descendante proximale; aorta descendente proximal; aorta discendente prossimale
  mid-descending: mid DTA; mid desc. aorta; mittlere Aorta descendens; aorte descendante moyenne; aorta descendente media; aorta discendente media
  at-diaphragm: Diaphragm; level of the diaphragm; Zwerchfellhöhe; auf Höhe des Zwerchfells; au niveau du diaphragme; a nivel del diafragma; a livello del diaframma; ter hoogte van het diafragma
  at-coeliac-origin: at the celiac origin; aorta at the coeliac axis; auf Höhe des Truncus coeliacus; au niveau du tronc cœliaque
  thoracic-aorta: thoracic Ao; thorakale Aorta; aorte thoracique; aorta torácica; thoracale aorta
  thoraco-abdominal-aorta: Thoracoabdominal aorta; thorakoabdominale Aorta; aorte thoraco-abdominale; aorta toracoabdominal; aorta toraco-addominale
  abdominal-aorta: Abd Ao; Bauchaorta; Aorta abdominalis; aorte abdominale; aorta addominale; buikaorta
  suprarenal-aorta: suprarenal; suprarenale Aorta; aorte sus-rénale; aorta suprarrenal; aorta soprarenale
  zone-8: juxtarenal; juxtarenale Aorta; aorte juxtarénale; aorta yuxtarrenal; zona 8
  zone-9: infrarenal; Infrarenal abdominal aorta; infrarenale Bauchaorta; aorte sous-rénale; aorta infrarrenal; aorta sottorenale; Z9
  zone-3: Zone 3; Z3; zone-3; zona 3
  aortic-bifurcation: Ao bifurcation; Aortenbifurkation; bifurcation de l'aorte; bifurcación aórtica; biforcazione aortica; aortabifurcatie
  innominate-artery: BCT; innominate; Truncus brachiocephalicus; TABC; tronc artériel brachio-céphalique; tronco braquiocefálico; tronco anonimo
  left-common-carotid-artery: LCCA; L CCA; Carotid, common, left; A. carotis communis links; artère carotide commune gauche; arteria carótida común izquierda; carotide comune sinistra; linker arteria carotis communis
  right-common-carotid-artery: RCCA; right CCA; rechte A. carotis communis
  left-subclavian-artery: LSA; lt subclavian; A. subclavia sinistra; artère sous-clavière gauche; arteria subclavia izquierda; succlavia sx; linker arteria subclavia
  left-vertebral-artery: left vertebral; A. vertebralis links; artère vertébrale gauche; arteria vertebral izq.
  circle-of-willis: circle of Willis; circulus arteriosus Willisii
  right-coronary-artery: right coronary; rechte Koronararterie; artère coronaire droite
  left-coronary-artery: left main; left coronary artery; coronaria sinistra
  common-origin-innominate-left-carotid: common origin of the innominate and left common carotid arteries; common origin of BCT and LCCA
  aberrant-right-subclavian-artery: ARSA; Arteria lusoria; aberrant right subclavian; artère sous-clavière droite aberrante
  coeliac-artery: celiac trunk; Coeliac axis; Truncus coeliacus; tronc cœliaque; tronco celíaco; tripode celiaco
  superior-mesenteric-artery: SMA; A. mesenterica superior; artère mésentérique supérieure; arteria mesentérica superior; arteria mesenterica superiore
  inferior-mesenteric-artery: IMA; A. mesenterica inferior; artère mésentérique inférieure
  right-renal-artery: RRA; right renal; rechte Nierenarterie; artère rénale droite; arteria renal derecha; arteria renale destra; rechter nierslagader
  left-renal-artery: LRA; A. renalis links; left renal a.
  zone-10-right: right CIA; RCIA; CIA right; A. iliaca communis dextra; artère iliaque commune droite; arteria ilíaca común derecha; iliaca comune destra; Zone 10 R
  zone-10-left: LCIA; left common iliac; Z10 left; zone 10 links; artère iliaque primitive gauche
  zone-11-left: left EIA; LEIA; A. iliaca externa links; artère iliaque externe gauche; arteria iliaca esterna sinistra
  right-internal-iliac-artery: RIIA; right hypogastric; A. iliaca interna rechts; arteria hipogástrica derecha
  left-common-femoral-artery: LCFA; left CFA; A. femoralis communis links; artère fémorale commune gauche; arteria femoral común izquierda; femorale comune sx
  proximal-anastomosis: proximal anastomosis; Prox. anastomosis; proximale Anastomose; anastomose proximale; anastomosi prossimale
  distal-anastomosis: distal anastomosis; distale Anastomose; anastomosis distal
`;

const refused = `
  Ao; aorta; Aorta thoracica; AA; AAo; DAo; ATA; IA; RA; CA; CT; CCA; CIA; EIA; IIA; CFA; RCA; LCA; LVA; RAA; AMI; SV;
  sinus; bulbus; Aortenbulbus; bifurcation; iliac bifurcation; anastomosis; coeliac; hiatus; mitral annulus; coronary sinus;
  arch 2; distal arch; transverse arch; hemiarch; proximal ascending; distal ascending aorta; distal descending;
  distal DTA; supraceliac aorta; pararenal aorta; visceral aorta; renal level; neck; aneurysm sac; landing zone;
  zone 12; zone 1.0; zone 13; Ishimaru zone 3; zone III; zones 3 to 5; left internal carotid artery; left brachiocephalic vein;
  aberrant left subclavian artery; right IMA; pulmonary artery; ascending aorta?; ascending aorta (repaired);
  ascending and arch; SoV/STJ; mid mid arch; asc; desc; 2 cm distal to LSA
`;

const rowsOf = (table: string) =>
  table
    .trim()
    .split("\n")
    .map((line) => line.trim());
const spellings = rowsOf(words).flatMap((line) => {
  const [id = "", list = ""] = line.split(": ");
  return list.split("; ").map((spelling) => [spelling, id] as const);
});
const refusedWords = refused.split(";").map((spelling) => spelling.trim());

describe("coded places", () => {
  test.each(rowsOf(codes).map((line) => line.split(" ")))(
    "%s, side %s, position %s",
    (site = "", side = "", position = "", id = "") => {
      const terms = reportTerms(site, {
        laterality: side === "-" ? null : term(side),
        modifiers: position === "-" ? [] : [term(position)],
      });
      expect(interpret(terms, dictionary)).toMatchObject({ place: { id } });
    },
  );

  // 15825003 aorta; 281130003 descending aorta as a whole, which carries the same display as the thoracic part;
  // 10293006 iliac artery; 8128003 aortic root with a position; unsided arteries.
  test.each([
    ["SCT:15825003", "-", "place-not-understood"],
    ["SCT:281130003", "-", "place-not-understood"],
    ["SRT:T-D0765", "-", "place-not-understood"],
    ["SCT:10293006", "-", "place-not-understood"],
    ["SCT:443281009", "-", "place-not-understood"],
    ["SCT:57034009", "SCT:46053002", "place-modifier-not-understood"],
    ["SCT:8128003", "SCT:40415009", "place-modifier-not-understood"],
    ["SCT:32672002", "SCT:103342007", "place-modifier-not-understood"],
    ["SCT:73634005", "-", "place-side-not-stated"],
    ["SCT:2841007", "-", "place-side-not-stated"],
    ["SCT:85234005", "-", "place-side-not-stated"],
  ])("%s with the position %s is refused", (site, position, problem) => {
    const modifiers = position === "-" ? [] : [term(position)];
    expect(interpret(reportTerms(site, { modifiers }), dictionary)).toMatchObject({ problem });
  });
});

describe("places in words", () => {
  test("there are enough of both kinds, and none stands in both", () => {
    expect(spellings.length).toBeGreaterThan(230);
    expect(refusedWords.length).toBeGreaterThan(55);
    expect(new Set(spellings.map(([spelling]) => spelling)).size).toBe(spellings.length);
  });

  test("every place of the table but the plain zones is named by one of the rows", () => {
    const named = new Set(spellings.map(([, id]) => id));
    const missing = placeTable.map(({ place }) => place.id).filter((id) => !named.has(id));
    for (const id of missing) {
      expect(id).toMatch(/^zone-\d+(?:-right)?$|^right-(?:sub|vert|common-fem)|^left-internal/);
    }
  });

  test.each(spellings)("%j is the %s", (spelling, id) => {
    expect(placeOf(spelling)).toBe(id);
  });

  test.each(refusedWords)("%j is not placed", (spelling) => {
    expect(placeOf(spelling)).toMatch(/^place-(?:not-understood|side-not-stated)$/);
  });
});

describe("placing is steady", () => {
  const anySpelling = fc.constantFrom(...spellings);

  test("the label of the place found leads to the same place", () => {
    for (const [spelling, id] of spellings) {
      const read = interpret(sheetTerms(spelling), dictionary);
      expect("place" in read && placeOf(read.place.label), spelling).toBe(id);
    }
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 400 }), (distanceMm) => {
        const { id, label } = placeDistalToLeftSubclavian(distanceMm);
        expect(placeOf(label)).toBe(id);
      }),
    );
  });

  test("case, spaces, hyphens, accents and the order of words do not count", () => {
    const variant = fc
      .tuple(anySpelling, fc.infiniteStream(fc.nat()))
      .map(([[words, id], order]) => {
        const parts = words.split(/[\s-]+/u).map((part) => ({ part, at: order.next().value ?? 0 }));
        const shuffled = parts.toSorted((a, b) => a.at - b.at).map(({ part }) => part);
        return { id, shuffled };
      });
    fc.assert(
      fc.property(
        variant,
        fc.constantFrom(" ", "-", "_", ", ", "  "),
        ({ id, shuffled }, space) => {
          const joined = shuffled.join(space);
          expect(placeOf(joined)).toBe(id);
          expect(placeOf(joined.toUpperCase())).toBe(id);
          expect(placeOf(joined.normalize("NFD").replaceAll(/\p{M}/gu, ""))).toBe(id);
        },
      ),
    );
  });

  test("one letter more, and it is no longer placed elsewhere", () => {
    fc.assert(
      fc.property(anySpelling, fc.constantFrom("x", "?", "*", "/"), ([words, id], mark) => {
        expect([id, "place-not-understood", "place-side-not-stated"]).toContain(
          placeOf(`${words} ${mark}`),
        );
        expect(placeOf(`${words}${mark}`)).toMatch(/^place-/);
      }),
    );
  });
});
