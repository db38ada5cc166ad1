"""Where each number comes from: the sources, and the figures that the code computes with."""

from dataclasses import dataclass
from typing import Literal

Provenance = Literal["read", "second-hand", "memory", "derived", "common practice"]


@dataclass(frozen=True, slots=True)
class Figure:
    """One published (or agreed) number with its unit, its source key and how it reached us."""

    name: str
    value: float
    unit: str
    source: str
    provenance: Provenance = "read"
    note: str = ""

    @property
    def citation(self) -> str:
        return SOURCES[self.source]


@dataclass(frozen=True, slots=True)
class Model:
    """A model as the reference page shows it: what it says, its limits, the figures it uses."""

    title: str
    says: tuple[str, ...]
    limits: tuple[str, ...]
    figures: tuple[Figure, ...]


# In full where it is known; “incomplete” says what a library would still have to look up by the title.
SOURCES: dict[str, str] = {
    "CP": "Common practice, no source. The responsible surgeon sets it.",
    "DEF": "Definition or arithmetic; no measurement involved.",
    "ABO": (
        "Volume of the vitrectomised space from axial length, 144 eyes, 20 to 32 mm. Arquivos Brasileiros de Oftalmologia,"
        " aboonline.org.br/article-from-author/ Juliana Moreira de Santana (incomplete: abstract read there, title and year not"
        " shown)."
    ),
    "Arm67": "Armaly. Arch Ophthalmol 1967;77:593.",
    "Air23": "Failures of detachment surgery with air, 137 of 1715 eyes. Eye and Vision 2023;10:9.",
    "Bach": "Bach. Visual acuity conversion, web page at michaelbach.de: counting fingers to no light perception.",
    "Bah16": "Bahill. Model for absorption of perfluoropropane intraocular gas. 2016, doi 10.18488/journal.9/2016.3.5/.",
    "Bern12": (
        "Pressure after 20-gauge vitrectomy, 851 eyes. Acta Ophthalmol 2012;90:744, doi 10.1111/j.1755-3768.2011.02251.x."
    ),
    "BJO05": (
        "Tonnu et al. A comparison of four methods of tonometry. Br J Ophthalmol 2005;89:847 (table of agreement "
        "read; author, title and page from memory)."
    ),
    "BMJ17": (
        "Reviews after 23-gauge vitrectomy, 200 eyes: 0.5 % found on day 1, 22 % treated for pressure by week 2. "
        "PMID 28108568."
    ),
    "BOSU": (
        "Park et al. Nationwide study of endophthalmitis after pars plana vitrectomy, 28 cases. Br J Ophthalmol "
        "2014;98:529 (read second-hand; citation from memory)."
    ),
    "C8214": "Cochrane review CD008214.pub4, vitreous cavity haemorrhage after vitrectomy.",
    "Can20": "Day-1 gas fill and outcome of detachment surgery, 445 eyes. Eye 2020, doi 10.1038/s41433-020-0846-8.",
    "Cat14": "Cataract after vitrectomy, 193 eyes, to 24 months. PMC4181740.",
    "CKS": (
        "NICE Clinical Knowledge Summary, Retinal detachment, section on referral: field loss or changed sight the"
        " same day; floaters within 24 h (read second-hand)."
    ),
    "Cook12": "Cook et al. Agreement of tonometers with applanation, systematic review. Ophthalmology 2012;119:1552.",
    "Epi": (
        "WHO ICD-11 for Mortality and Morbidity Statistics, 9D90 Vision impairment including blindness (read second-hand)."
    ),
    "Fan17": (
        "Fang et al. Intraocular pressure 1 year after vitrectomy in eyes without a history of glaucoma or ocular hypertension,"
        " 256 eyes. Clin Ophthalmol 2017;11:2091, doi 10.2147/OPTH.S144985."
    ),
    "Fos10": (
        "Tamponade in different-sized eye models (cites Parver and Lincoff). Graefes Arch 2010, doi "
        "10.1007/s00417-010-1579-3."
    ),
    "GD": (
        "Intraocular gas dynamics after 20-gauge and 23-gauge vitrectomy with sulfur hexafluoride gas tamponade, 290 eyes."
        " Kusuhara et al. Retina 2011;31:250 (abstract read; authors, journal, volume and page from memory)."
    ),
    "Gro99": (
        "Grover et al. Visual acuity impairment in patients with retinitis pigmentosa at age 45 years or older. "
        "Ophthalmology 1999;106:1780 (from memory): a stand-in convention."
    ),
    "Gse16": "Gsellman, Amini. Gas and changes of altitude. IOVS 2016;57:3340, doi 10.1167/iovs.15-18010.",
    "Han93": "Han et al. Perfluoropropane 12 % against 20 %, randomised, 30 eyes. Retina 1993;13:302.",
    "Hol09": "Hollands et al. New floaters and flashes: has this patient a retinal tear? JAMA 2009;302:2243.",
    "Hol97": (
        "Holladay. Proper method for calculating average visual acuity. J Refract Surg 1997;13:388, and Visual "
        "acuity measurements. J Cataract Refract Surg 2004;30:287 (both from memory): a stand-in convention."
    ),
    "HSO14": "Morescalchi et al. Heavy silicone oil. BioMed Res Int 2014;574825.",
    "ICAO": "ICAO Doc 7488/3, Manual of the ICAO Standard Atmosphere, 1993: 1013.25 hPa, 288.15 K, 6.5 K/km to 11 km.",
    "ICD10": "WHO ICD-10, H54 Visual impairment including blindness, table of categories.",
    "IJRV24": "Short- versus long-acting gas, 533 eyes. Int J Retina Vitreous 2024, doi 10.1186/s40942-024-00530-y.",
    "JCM19": "Traction after anti-VEGF before vitrectomy. J Clin Med 2019, PMC6912392.",
    "Kai09": (
        "Kaiser. Prospective evaluation of visual acuity assessment: Snellen against letter score, 163 eyes. Trans"
        " Am Ophthalmol Soc 2009;107:311 (volume and page from memory)."
    ),
    "Kan18": "Kanclerz, Grzybowski. Complications of expandable gases. J Ophthalmol 2018;8606494, doi 10.1155/2018/8606494.",
    "La09": (
        "Lange et al. Resolving the clinical acuity categories hand motion and counting fingers. Graefes Arch Clin"
        " Exp Ophthalmol 2009;247:137, doi 10.1007/s00417-008-0926-0."
    ),
    "Lew88": "Lewis et al. Am J Ophthalmol 1988;106:607.",
    "Lim10": "Lim et al. Change in acuity that is real, clinic patients. Eye 2010;24:673.",
    "Lin89b": "Lincoff et al. Intraocular gas and air travel. Arch Ophthalmol 1989;107:907.",
    "LOH19": "Late-onset ocular hypertension after vitrectomy, 6048 eyes. Retina 2019;39:2107.",
    "Mex16": "Intraocular gas on mountain roads, rabbit model. BioMed Res Int 2016;7326160.",
    "Mey92": "Meyers et al. Retina 1992;12:359, levels of C3F8 in single eyes, as carried by an open data set.",
    "Mtn": (
        "Travel to high mountain elevations following vitrectomy with intraocular gas, 75 patients: no harm to 1187 m"
        " (incomplete: abstract read under this title on discovery.researcher.life/article/travel-to-high-mountain-elevations-"
        "following-vitrectomy-with-intraocular-gas, authors and journal not shown)."
    ),
    "NICE": (
        "NICE guideline NG81, Glaucoma: diagnosis and management: refer and treat at 24 mmHg or more on Goldmann-"
        "type applanation."
    ),
    "NV13": (
        "Frequency and risk factors for neovascular glaucoma after vitrectomy in eyes with proliferative diabetic retinopathy,"
        " 512 eyes. Goto et al. J Glaucoma 2013;22:572 (abstract read, September issue, article 00061198-201309000-00010;"
        " authors and page from memory)."
    ),
    "NZCAA": (
        "Civil Aviation Authority of New Zealand, Medical Manual, part 3, Clinical aviation medicine: Ophthalmology, Retinal"
        " detachment, web page at caa.govt.nz."
    ),
    "Per25": (
        "A novel predictor of persistent ocular hypotony after pars plana vitrectomy for rhegmatogenous retinal"
        " detachment, 538 eyes with scar membranes and oil. Arq Bras Oftalmol 2025;88(2)."
    ),
    "PIMS": "Pasu et al. Positioning in macular hole surgery. JAMA Ophthalmol 2020;138:725.",
    "PRD": "Casswell et al. Positioning after detachment repair. JAMA Ophthalmol 2020;138:634.",
    "Rah12": "Rahman, Madgula, Khan. SF6 vs C2F6. Br J Ophthalmol 2012;96:185, doi 10.1136/bjo.2010.201699.",
    "RCO18": "Royal College of Ophthalmologists, safety alert on nitrous oxide and intraocular gas, 18 Dec 2018.",
    "RD14": "When failures of detachment surgery are found, 133 eyes. Graefes Arch Clin Exp Ophthalmol 2014;252:1711.",
    "Reb12": "Smith, Steel. Rebleeding after diabetic vitrectomy. Retinal Physician, September 2012, at retinalphysician.com.",
    "Reb13": "Rebound tonometry against applanation in people of 75 and older. 2013, PMC3904777.",
    "Ros04": (
        "Rosser, Murdoch, Cousens. The effect of optical defocus on the test-retest variability of visual acuity. "
        "IOVS 2004;45:1076, doi 10.1167/iovs.03-1320."
    ),
    "SB06": "Schulze-Bonsel et al. IOVS 2006;47:1236, doi 10.1167/iovs.05-0981.",
    "Sel22": (
        "Nakamura, Nishi, Nishitsuka. Selection criteria for air tamponade during vitrectomy for rhegmatogenous retinal"
        " detachment, 294 eyes. Clin Ophthalmol 2022, doi 10.2147/OPTH.S359936."
    ),
    "SIO": (
        "Steroid-induced ocular hypertension after 23-gauge vitrectomy, how often and in whom: 540 patients, January 2019 to"
        " March 2022 (incomplete: abstract read on globalauthorid.com, which begins *This study aimed to assess the incidence and"
        " risk factors for the development of steroid-induced ocular hypertension*; title, authors and journal not shown)."
    ),
    "SO18": "Pressure after silicone oil, 254 eyes, and its review plan. Ophthalmologica 2018;240:129.",
    "SO19": "Sympathetic ophthalmia after vitreoretinal surgery. Invest Ophthalmol Vis Sci 2019, ARVO abstract 2745604.",
    "SOR24a": "Oil removal after detachment, 161 eyes. BMC Ophthalmol 2024, doi 10.1186/s12886-024-03618-z.",
    "SR20": "C3F8 14 % against 20 % on widefield images. Sci Rep 2020, doi 10.1038/s41598-020-75493-9.",
    "Th89": "Thompson. Kinetics of intraocular gases. Arch Ophthalmol 1989;107:687.",
    "Th92": "Thompson. Absorption of mixtures of air and perfluoropropane. Arch Ophthalmol 1992;110:1594.",
    "TSV25": "Low pressure after small-gauge vitrectomy, 840 eyes. PLoS One 2025, doi 10.1371/journal.pone.0321135.",
    "UKDB": (
        "Day, Donachie, Sparrow, Johnston. National database study of cataract surgery, report 1. Eye 2015;29:552 (what it"
        " counts low vision as is from memory): a stand-in convention."
    ),
    "VD11": (
        "Pressure after vitrectomy with and without gas. Acta Ophthalmol 2011;89:365, doi 10.1111/j.1755-3768.2009.01703.x."
    ),
    "VIP21": (
        "Bandera et al. Risk factors for postoperative eye pain in patients with non-painful eye disease undergoing pars plana"
        " vitrectomy, about 446 eyes. Minerva Anestesiol 2021;87:541, doi 10.23736/S0375-9393.21.14294-4."
    ),
    "VRS": (
        "Open online vitreoretinal surgery handbook, chapter 3, section 3.3, Post-operative care, web page at"
        " vrsurgeryonline.com, which names no edition."
    ),
    "Zh": (
        "Zhou, Tu, Chen, Wei. Quantitative analysis with volume rendering of pathological myopic eyes by high-resolution"
        " three-dimensional magnetic resonance imaging, 570 eyes. Medicine 2020, doi 10.1097/MD.0000000000022685."
    ),
}
