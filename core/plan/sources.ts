/** Raised with every change of the table. */
export const SOURCES_VERSION = '1.2';

/**
 * Short keys to citations of the publications whose figures enter a plan. A key is what stands in the `source` of a measurement, an
 * opinion or a weight. Where only a part of a citation is certain, only that part is given.
 */
export const SOURCES: Readonly<Record<string, string>> = {
  'Bellemans 2002': 'Bellemans J et al. J Bone Joint Surg Br 2002; 84-B:50. Posterior condylar offset and flexion.',
  'Berger & Crossett 1998':
    'Berger RA, Crossett LS et al. Clin Orthop Relat Res 1998; 356:144. Component rotation and patellar failure (figures from memory).',
  'Berger 1993': 'Berger RA et al. Clin Orthop Relat Res 1993; 286:40. Surgical epicondylar axis, 75 femora.',
  'Bisicchia 2017': 'Bisicchia S et al. 2017, PMC5685973. Posterior tibial slope by axis on films, 413 and 168 knees.',
  'Blackburne & Peel 1977': 'Blackburne JS, Peel TE. J Bone Joint Surg Br 1977; 59-B:241. Height of the patella.',
  'Bland & Altman 1996':
    'Bland JM, Altman DG. BMJ 1996; 313:744. Measurement error: within-subject standard deviation.',
  'Brenneis 2023': 'Brenneis et al. KSSTA 2023. Class of tibial bone loss on films and CT against theatre, 99 knees.',
  'Caton 1982': 'Caton J et al. Rev Chir Orthop 1982; 68:317. Height of the patella.',
  'Chinese CT 2018': 'J Orthop Surg Res 2018; 13, s13018-018-0963-2. Joint line by ratios on CT, 215 knees.',
  'Ewald 1989': 'Ewald FC. Clin Orthop Relat Res 1989; 248:9. Angles and lucent lines of knee replacements on films.',
  'Figgie 1986': 'Figgie HE et al. J Bone Joint Surg Am 1986; 68-A:1035. Joint line and patellar height, 116 knees.',
  'Gao 2021': 'Gao et al. Knee 2021; 29:510. Joint line from landmarks on films, 451 knees.',
  'Gomes 1988':
    'Gomes LS et al. Clin Orthop Relat Res 1988; 236:72. Position of the patellar component on films (from memory).',
  'Grelsamer & Meadows 1992': 'Grelsamer RP, Meadows S. Clin Orthop Relat Res 1992; 282:170. Modified patellar index.',
  'Hanratty 2007':
    'Hanratty BM et al. J Bone Joint Surg Br 2007; 89-B:915. Posterior condylar offset on films, 69 knees.',
  'Heesterbeek 2008': 'Heesterbeek PJ et al. 2008. Varus and valgus laxity of healthy knees at 15 Nm, 30 people.',
  'Iacono 2013': 'Iacono F et al. 2013, and KSSTA 2016; 24:3212. Adductor tubercle as landmark of the joint line.',
  'Insall & Salvati 1971': 'Insall J, Salvati E. Radiology 1971; 101:101. Height of the patella.',
  'Jacquet 2020': 'Jacquet C et al. KSSTA 2020. Side-to-side differences of the lower limb on CT, 233 people.',
  'Jamali 2017': 'Jamali AA et al. J Orthop Surg Res 2017; 12:77. Alignment of normal limbs on CT, 87 limbs.',
  'Jeffcote 2007': 'Jeffcote B et al. J Bone Joint Surg Br 2007. Flexion and extension gaps against force and strain.',
  'Johal 2012': 'Johal P et al. Knee 2012, PubMed 22682692. Posterior condylar offset ratio, 100 films.',
  'Kang 2019': 'Kang KT et al. J Clin Med 2019; 8:384. Tibial blocks by finite elements.',
  'Kappel 2019': 'Kappel A et al. 2019. Reliability of stress radiography after knee replacement.',
  'Lee 2020': 'Lee 2020, 10.1055/s-0040-1713733. Epicondyles and posterior joint line on CT, 50 knees.',
  'Lingaraj 2011': 'Lingaraj K et al. Knee 2011; 18:165. Least thickness of polyethylene.',
  'Luyckx 2013': 'Luyckx T et al. ISTA 2013; 95-B Supp 34. Adductor tubercle on calibrated films, 100 limbs.',
  'MacDessi 2021': 'MacDessi SJ et al. Bone Joint J 2021; 103-B:329. Coronal alignment of the knee, 500 and 500 knees.',
  'Maderbacher 2014':
    'Maderbacher G et al. Int Orthop 2014; 38:1173. Bony landmarks of the joint line on MRI, 80 knees.',
  'Moreland 1987': 'Moreland JR et al. J Bone Joint Surg Am 1987; 69-A:745. Axes of the lower limb, 25 men.',
  'Morgan-Jones 2015':
    'Morgan-Jones R et al. Bone Joint J 2015; 97-B:147. Zonal fixation in revision (message from memory).',
  'Okazaki 2006': 'Okazaki K et al. 2006. Laxity of healthy knees on stress films, 50 knees.',
  'Okazaki 2014': 'Okazaki K et al. Knee 2014; 21:806. Tibial slope and the flexion gap.',
  'Osteology 2021': 'Osteology 2021; 1(2):9. Lengths of the lower limb on films, 1077 limbs.',
  'Palanisamy 2025': 'Palanisamy et al. J Clin Orthop Trauma 2025. Adductor tubercle ratio on films, 93 and 47 knees.',
  'Paley 2002': 'Paley D. Principles of Deformity Correction. Springer, 2002.',
  'Rajagopal 2011':
    'Rajagopal TS, Nathwani D. J Bone Joint Surg Br 2010; 92-B Supp II. Epicondyles and joint line on CT, 100 knees.',
  'Rosso 2019': 'Rosso F et al. 2019. Bone loss in revision: classes and treatment, tables 1 and 2.',
  'Servien 2008': 'Servien E et al. KSSTA 2008; 16:263. Bony landmarks of the joint line on MRI, 200 knees.',
  'Shield 2019': 'Shield WP et al. J Arthroplasty 2019; 34:S262. Retained patellar components, 147 revisions.',
  'Sobol 2022': 'Sobol et al. Bone Jt Open 2022; 3:173. Distal femoral replacement outside tumours, 75 knees.',
  'Thai MRI 2022': 'Knee Surg Relat Res 2022; 34:5. Landmarks of the joint line on MRI, 140 knees.',
  'Tokuhara 2004': 'Tokuhara Y et al. J Bone Joint Surg Br 2004. Flexion gap of normal knees on MRI, 20 knees.',
  'Valkering 2015': 'Valkering KP et al. 2015, PMC4513597. Component rotation on CT and outcome, review of 25 studies.',
  'Xiao 2017': 'Xiao et al. J Arthroplasty 2017, PubMed 27836580. Adductor tubercle ratio, 50 films and 20 MRI.',
  'van Lieshout 2019': 'van Lieshout WAM et al. KSSTA 2019. Joint-line elevation and function, review of 27 studies.',
};

/** Keys whose name stands in any of the texts, in alphabetical order. */
export function keysIn(texts: Iterable<string>): readonly string[] {
  const all = [...texts].join('\n');
  return Object.keys(SOURCES).filter((key) => all.includes(key));
}
