// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Every source of the published checks. A standard of which only an excerpt, a copy or an explanation was seen was read
// at second hand. Where two publications say the same because one copies the other, only one is here.

#pragma once

#include "published/source.h"

namespace loopside::published::sources {

// Units

inline constexpr Source gnuUnits{"GNU Units 2.22", Provenance::Read, "run, Debian package units 2.22-2"};
inline constexpr Source gslConstants{"GSL 2.7, gsl_const_mksa.h", Provenance::Read, "read, Debian package libgsl-dev"};
inline constexpr Source pint{"Python library Pint 0.19.2", Provenance::Read, "run, Debian package python3-pint"};
inline constexpr Source astropy{"Python library Astropy 5.2.1", Provenance::Read,
                                "run, Debian package python3-astropy"};
inline constexpr Source unyt{"Python library unyt 2.9.3", Provenance::Read, "run, Debian package python3-unyt"};
inline constexpr Source quantities{"Python library quantities 0.13.0", Provenance::Read,
                                   "run, Debian package python3-quantities"};
inline constexpr Source scipy{"Python library SciPy 1.10.1", Provenance::Read, "run, Debian package python3-scipy"};

// Oil

inline constexpr Source astmD341Sheet{"Viscosity-temperature calculator sheet after ASTM D341", Provenance::Read,
                                      "the sheet's example, on a document-sharing site"};
inline constexpr Source pipelineHelp{"Pipeline engineering help page, ASTM D341 viscosity-temperature relations",
                                     Provenance::Read, "equations 1 to 3, in two copies"};
inline constexpr Source astmD2270{"ASTM D2270-93(98)", Provenance::ReadAtSecondHand,
                                  "clauses 1, 5 and 6 with their examples on an instrument seller's pages; table 1 in "
                                  "the library chemicals and a second copy; table X2.1 in five public code copies"};
inline constexpr Source chemicalsLibrary{"Python library chemicals, commit 82faef9", Provenance::Read,
                                         "viscosity.py with table 1 of D2270 and the equation of D2161, and its tests"};
inline constexpr Source viscosityChart{"Public repository viscosity-chart", Provenance::Read,
                                       "its L and H, and its chart's pairs for viscosity index 100"};
inline constexpr Source laboratorio{"Public repository Laboratorio, ISO 2909 look-up", Provenance::Read,
                                    "values in a comment of Viscosidade.py"};
inline constexpr Source mil5606{"Typical data of a MIL-PRF-5606 type hydraulic fluid", Provenance::Read,
                                "as published in a readme of the public repository e-jet-systems"};
inline constexpr Source gradeLeaflet{"Leaflet Viscosity classifications, ISO viscosity table", Provenance::Read,
                                     "grades VG 2 to 1500 with limits; a second chart agrees"};
inline constexpr Source astmD2422{"ASTM D2422, clause 4", Provenance::ReadAtSecondHand,
                                  "an excerpt on an instrument seller's page"};
inline constexpr Source hydraulicInstitute{"Hydraulic Institute, Engineering Data Book", Provenance::Read,
                                           "online edition: fluid properties, fluid flow"};
inline constexpr Source apiMpms2004{"API MPMS 11.1-2004 and ASTM D1250-04", Provenance::ReadAtSecondHand,
                                    "a calculation engine's public reference document that quotes them"};
inline constexpr Source vcfCalculator{"Online calculator of volume correction factors", Provenance::Read,
                                      "its page on the lubricating oils of API MPMS 11.1"};
inline constexpr Source iso91Code{"ISO 91-1, table 54D", Provenance::ReadAtSecondHand,
                                  "two public code files that implement it"};

inline constexpr Source iapws{"Python library iapws 1.5.3 (IAPWS-95)", Provenance::Read,
                              "run, Debian package python3-iapws"};
inline constexpr Source gearPumpLiterature{"Gear-pump service literature", Provenance::Read,
                                           "one maker's viscosity limits"};
inline constexpr Source saturationArticle{"Transformer-oil article, solubility of water", Provenance::Read,
                                          "its table from 0 to 100 °C"};
inline constexpr Source permittedWater{"Note on permitted water content in oil, instrument seller", Provenance::Read,
                                       "its worked example"};
inline constexpr Source waterQuestion{"Machinery Lubrication, question on 3000 ppm in 15 gal", Provenance::Read,
                                      "the opening part"};

// Cleanliness

inline constexpr Source machineryIndia{"Machinery Lubrication India, Nov-Dec 2019, p. 30", Provenance::Read,
                                       "its chart of ISO 4406, table 2 of SAE AS4059 revision E, and foot-notes"};
inline constexpr Source constructionEquipment{"Construction Equipment, ISO 4406 basics", Provenance::Read,
                                              "its table, numbers 10 to 24"};
inline constexpr Source iso4406Abstract{"SIST ISO 4406:2022 (ISO 4406:2021)", Provenance::ReadAtSecondHand,
                                        "a standards catalogue's abstract"};
inline constexpr Source iso4406Clauses{"ISO 4406:1999 and BS ISO 4406:2021, clauses 3 and 4",
                                       Provenance::ReadAtSecondHand, "excerpts on other pages"};
inline constexpr Source counterNote{"Particle-counter distributor's note, ISO 4406: how does it work", Provenance::Read,
                                    "its worked example"};
inline constexpr Source reportingNotes{"Appendix on reporting by ISO 4406, oil-analysis laboratory", Provenance::Read,
                                       "its notes on low counts"};
inline constexpr Source nasSheet{"Data sheet NAS cleanliness (NAS 1638)", Provenance::ReadAtSecondHand,
                                 "on a document-sharing site"};
inline constexpr Source agmaThread{"AGMA filtration guideline for gear drives", Provenance::ReadAtSecondHand,
                                   "quoted by practitioners in an engineering forum"};
inline constexpr Source betaTexts{"Filtration text, handbook extract and calculator page on beta ratio",
                                  Provenance::Read, "excerpts that agree"};

// Gauges and flow

inline constexpr Source en837{"EN 837-1:1998, table 11", Provenance::ReadAtSecondHand, "an excerpt"};
inline constexpr Source asmeExplainers{"ASME B40.100, grade A", Provenance::ReadAtSecondHand,
                                       "two explainer pages on accuracy grades"};
inline constexpr Source distributionGuide{"Guide to distribution functions in uncertainty", Provenance::Read,
                                          "its worked rectangular example"};
inline constexpr Source uncertaintiesLibrary{"Python library uncertainties 3.1.6", Provenance::Read,
                                             "run, Debian package python3-uncertainties"};
inline constexpr Source fluidsLibrary{"Python library fluids 1.0.22", Provenance::Read,
                                      "run, Debian package python3-fluids"};
inline constexpr Source tp410{"Flow of Fluids, Technical Paper 410", Provenance::ReadAtSecondHand,
                              "its problems and answers, told in the documents of the library fluids 1.0.22"};
inline constexpr Source nec{"National Electrical Code (US)", Provenance::ReadAtSecondHand,
                            "table 430.248 (430-148 of 1999) in two agreeing copies, 210.20(A) in a discussion"};
inline constexpr Source housingHandbook{"Hydraulic filtration handbook, housing selection", Provenance::Read,
                                        "one page"};

// Turnovers

inline constexpr Source geist{"B. Geist, Calculating Turn-over Time for Aquarium Devices, 2003", Provenance::Read,
                              "read"};
inline constexpr Source cartTimingBlog{"Filter cart timing, lubrication trade blog, 2010", Provenance::Read,
                                       "a reprint"};
inline constexpr Source ruleOfSeven{"The filter cart rule of seven, hydraulics consultant's article", Provenance::Read,
                                    "read"};
inline constexpr Source gearOilAdvice{"Machinery Lubrication, Advice for Filtering Gear Oils", Provenance::Read,
                                      "the opening part"};
inline constexpr Source mmwr{"MMWR 43(RR-13), 1994, table S3-1", Provenance::Read, "26 rows"};
inline constexpr Source roomVentilation{"Engineering reference page, concentration in a ventilated room, 2005",
                                        Provenance::Read, "its formula and table"};

inline constexpr Source cfr279{"40 CFR 279.22 (US)", Provenance::Read, "the full text"};

// Not counted

inline constexpr Source fromMemory{"from memory", Provenance::FromMemory, ""};
inline constexpr Source computed{"computed", Provenance::ComputedHere, ""};
inline constexpr Source gslSolvers{"GSL 2.7, solvers", Provenance::NumericalWitness, ""};
inline constexpr Source practitioner{"a practitioner's table, computed", Provenance::ComputedHere, ""};

} // namespace loopside::published::sources
