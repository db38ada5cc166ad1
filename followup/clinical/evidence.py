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


SOURCES: dict[str, str] = {
    "CP": "Common practice, no source. The responsible surgeon sets it.",
    "DEF": "Definition or arithmetic; no measurement involved.",
    "ABO": "Vitrectomised-space volume from axial length, 144 eyes. Arq Bras Oftalmol.",
    "Air17": "Air exclusively for retinal detachment. J Ophthalmol 2017;1341948.",
    "Arm67": "Armaly. Arch Ophthalmol 1967;77:593.",
    "Bach": "Bach. Visual acuity conversion table (web page), counting fingers to no light perception.",
    "Bah16": "Bahill. Model for absorption of perfluoropropane. 2016, doi 10.18488/journal.9/2016.3.5/.",
    "BDJ08": "Br Dent J 2008, doi 10.1038/bdj.2008.158.",
    "Bern12": "Intraocular pressure after 20-gauge vitrectomy, 851 eyes. Acta Ophthalmol 2012;90:744.",
    "BJO05": "Tonometer agreement table. Br J Ophthalmol (year from memory).",
    "BMJ17": "Day-1 review after vitrectomy, 200 eyes, and reviews that dropped it. PMID 28108568.",
    "BOSU": "UK surveillance of endophthalmitis after vitrectomy, 28 cases (read second-hand).",
    "C8214": "Cochrane review CD008214.pub4, vitreous cavity haemorrhage after vitrectomy.",
    "Can20": "Day-1 gas fill and outcome of detachment surgery, 445 eyes. Eye 2020, doi 10.1038/s41433-020-0846-8.",
    "Cook12": "Agreement of tonometers, systematic review. Ophthalmology 2012;119:1552.",
    "Def": "Deferred first visit after vitrectomy, 246 operations.",
    "En18b": "Bhende et al. Endophthalmitis after vitrectomy. PLoS One 2018;13:e0191173.",
    "En22": "Endophthalmitis after vitrectomy, 12 of 6474. Int J Retina Vitreous 2022, doi 10.1186/s40942-022-00435-8.",
    "Kai09": "x",
    "Lim10": "x",
    "Cat14": "x",
    "VIP21": "x",
    "SIO": "x",
    "VD11": "x",
    "Hyp": "x",
    "NV13": "x",
    "RD14": "x",
    "Epi": "ICD-11 9D90 vision impairment categories (read second-hand).",
    "Fos10": "Tamponade in different-sized eye models (cites Parver and Lincoff). Graefes Arch 2010.",
    "Gos13": "23- versus 20-gauge vitrectomy, day-1 pressure. Open Ophthalmol J 2013;7:42.",
    "Gro99": "Grover 1999 and other trials: a stand-in convention.",
    "Gse16": "Gsellman, Amini. Gas and changes of altitude. IOVS 2016;57:3340, doi 10.1167/iovs.15-18010.",
    "Har13": "Hartmann. Physical model for absorption of intraocular gas. Digit J Ophthalmol 2013;19(2).",
    "Hart02": "Nitrous oxide with intraocular gas, five eyes. Retina 2002;22:569.",
    "Hol97": "Holladay 1997/2004 convention for counting fingers and hand movements.",
    "Hou12": "Houston et al. Airline policies on intraocular gas. Aviat Space Environ Med 2012;83:809.",
    "ICAO": "ICAO standard atmosphere (Doc 7488): 1013.25 hPa, 288.15 K, 6.5 K/km to 11 km.",
    "ICD10": "WHO ICD-10 H54, categories of vision impairment.",
    "IJRV24": "Short- versus long-acting gas, 533 eyes. Int J Retina Vitreous 2024, doi 10.1186/s40942-024-00530-y.",
    "JCM19": "Traction after anti-VEGF before vitrectomy. J Clin Med 2019, PMC6912392.",
    "Kan18": "Kanclerz, Grzybowski. Complications of expandable gases. J Ophthalmol 2018;8606494.",
    "Kin": "Hospital leaflet on posturing (read second-hand).",
    "La09": "Lange et al. Resolving low vision. Graefes Arch 2009;247:137, doi 10.1007/s00417-008-0926-0.",
    "Lew88": "Lewis et al. Am J Ophthalmol 1988;106:607.",
    "Lin89b": "Lincoff et al. Intraocular gas and air travel. Arch Ophthalmol 1989;107:907.",
    "Lt": "Long-term results of diabetic vitrectomy, 124 eyes.",
    "Mex16": "Intraocular gas on mountain roads, rabbit model. BioMed Res Int 2016;7326160.",
    "Mtn": "Travel to high mountain elevations with gas, 75 patients.",
    "NICE": "NICE guideline NG81: refer and treat at 24 mmHg or more on Goldmann-type applanation.",
    "NZCAA": "New Zealand CAA medical manual, retinal detachment.",
    "PIMS": "Pasu et al. Positioning in macular hole surgery. JAMA Ophthalmol 2020;138:725.",
    "PRD": "Casswell et al. Positioning after detachment repair. JAMA Ophthalmol 2020;138:634.",
    "RCO18": "Royal College of Ophthalmologists, safety alert on nitrous oxide and intraocular gas, 18 Dec 2018.",
    "Rah12": "Rahman, Madgula, Khan. SF6 vs C2F6. Br J Ophthalmol 2012;96:185, doi 10.1136/bjo.2010.201699.",
    "Reb12": "Smith, Steel. Vitreous cavity haemorrhage after diabetic vitrectomy, review 2012.",
    "Reb13": "Rebound tonometry against applanation. PMC3904777.",
    "Ros04": "Rosser, Murdoch, Cousens. IOVS 2004;45:1076, doi 10.1167/iovs.03-1320.",
    "SB06": "Schulze-Bonsel et al. IOVS 2006;47:1236, doi 10.1167/iovs.05-0981.",
    "Sid": "Repeatability of acuity in a large eye clinic, 50 patients.",
    "SO18": "Pressure after silicone oil, 254 eyes. Ophthalmologica 240:129.",
    "SO19": "Sympathetic ophthalmia after vitreoretinal surgery. IOVS abstract 2745604.",
    "SOR24a": "Oil removal after detachment, 161 eyes. BMC Ophthalmol 2024, doi 10.1186/s12886-024-03618-z.",
    "HSO14": "Morescalchi et al. Heavy silicone oil. BioMed Res Int 2014;574825.",
    "Th89": "Thompson. Kinetics of intraocular gases. Arch Ophthalmol 1989;107:687.",
    "Th92": "Thompson. Absorption of mixtures of air and perfluoropropane. Arch Ophthalmol 1992;110:1594.",
    "UKDB": "UK national database convention for low vision.",
    "VRS": "Open online vitreoretinal surgery handbook, post-operative care.",
    "Yor18": "Long gas, UK registry, time to re-detachment (congress report).",
    "Zh": "3D-MRI vitreous volume, 570 eyes.",
}
