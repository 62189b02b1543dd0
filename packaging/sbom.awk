# SPDX-FileCopyrightText: The Loopside authors
# SPDX-License-Identifier: GPL-3.0-or-later

# What packaging/sbom found out, as SPDX 2.3 in JSON.

function quoted(text) {
  gsub(/\\/, "\\\\", text)
  gsub(/"/, "\\\"", text)
  gsub(/\t/, " ", text)
  return "\"" text "\""
}

# Only letters, digits, dots and hyphens stand in an id.
function idOf(name) {
  gsub(/\+/, "-plus", name)
  gsub(/[^A-Za-z0-9.-]/, "-", name)
  return "SPDXRef-Package-" name
}

# One licence as Debian names it, by SPDX's name; empty if we do not know it by heart.
function oneLicence(name) {
  return name in known ? known[name] : ""
}

# An expression of Debian's names ("LGPL-3 or GPL-2") in SPDX's; NOASSERTION if any of them is not known.
function licence(text,   parts, count, i, one, made) {
  count = split(text, parts, " ")
  if (count == 0) return "NOASSERTION"
  for (i = 1; i <= count; ++i) {
    one = parts[i] == "or" ? "OR" : parts[i] == "and" ? "AND" : oneLicence(parts[i])
    if (one == "") return "NOASSERTION"
    made = made (i == 1 ? "" : " ") one
  }
  return made ~ / AND / && made ~ / OR / ? "NOASSERTION" : made # who binds first is not said
}

function add(list, text) {
  return list (list == "" ? "" : ",\n") text
}

function package(name, version, declared, more) {
  return "    {\n      \"name\": " quoted(name) ",\n      \"SPDXID\": " quoted(idOf(name)) ",\n" \
    (version == "" ? "" : "      \"versionInfo\": " quoted(version) ",\n") more \
    "      \"filesAnalyzed\": false,\n      \"licenseConcluded\": \"NOASSERTION\",\n" \
    "      \"licenseDeclared\": " quoted(declared) ",\n      \"copyrightText\": \"NOASSERTION\"\n    }"
}

function relation(from, kind, to) {
  relations = add(relations, "    {\"spdxElementId\": " quoted(from) ", \"relationshipType\": " quoted(kind) \
    ", \"relatedSpdxElement\": " quoted(to) "}")
}

BEGIN {
  split("Apache-2.0 BSD-2-Clause BSD-3-Clause BSL-1.0 CC0-1.0 EPL-2.0 ISC MIT MPL-2.0 OFL-1.1 PostgreSQL Zlib curl", same, " ")
  for (i in same) known[same[i]] = same[i]
  known["BSD-2-clause"] = "BSD-2-Clause"
  known["BSD-3-clause"] = "BSD-3-Clause"
  known["EDL-1.0"] = "BSD-3-Clause" # the Eclipse Distribution Licence is that text
  known["Expat"] = "MIT"
  known["MPL-2"] = "MPL-2.0"
  known["zlib"] = "Zlib"
  split("2 2.0 2.1 3 3.0", numbers, " ")
  for (i in numbers) {
    full = numbers[i] ~ /\./ ? numbers[i] : numbers[i] ".0"
    split("GPL LGPL", families, " ")
    for (k in families) {
      known[families[k] "-" numbers[i]] = families[k] "-" full "-only"
      known[families[k] "-" numbers[i] "+"] = families[k] "-" full "-or-later"
    }
  }
}

$1 == "document" {
  own = $2
  version = $3
  created = $4
  hash = $5
  packages = package(own, version, "GPL-3.0-or-later", "      \"downloadLocation\": \"NOASSERTION\",\n" \
    "      \"supplier\": \"Organization: The Loopside authors\",\n")
  relation("SPDXRef-DOCUMENT", "DESCRIBES", idOf(own))
}

$1 == "vendored" {
  packages = add(packages, package($2, $3, "MIT", \
    "      \"downloadLocation\": " quoted("https://registry.npmjs.org/" tolower($2) "/-/" tolower($2) "-" $3 ".tgz") ",\n" \
    "      \"packageFileName\": \"assets/page/vendor/uplot/uPlot.esm.js\",\n" \
    "      \"checksums\": [{\"algorithm\": \"SHA256\", \"checksumValue\": " quoted($4) "}],\n"))
  relation(idOf(own), "CONTAINS", idOf($2))
}

$1 == "package" {
  more = "      \"downloadLocation\": \"NOASSERTION\",\n"
  if ($3 != "") {
    more = more "      \"supplier\": \"Organization: Debian\",\n" \
      "      \"sourceInfo\": " quoted("built from the Debian source package " $4 " " $5) ",\n" \
      "      \"externalRefs\": [{\"referenceCategory\": \"PACKAGE-MANAGER\", \"referenceType\": \"purl\", " \
      "\"referenceLocator\": " quoted("pkg:deb/debian/" escaped($2) "@" escaped($3)) "}],\n"
  } else {
    more = more "      \"comment\": \"not installed where this list was made\",\n"
  }
  if ($7 != "") more = more "      \"licenseComments\": " quoted("Debian's names of all licences in it: " $7) ",\n"
  packages = add(packages, package($2, $3, licence($6), more))
}

# In a package URL these stand as their codes.
function escaped(text) {
  gsub(/%/, "%25", text)
  gsub(/\+/, "%2B", text)
  gsub(/:/, "%3A", text)
  return text
}

$1 == "relation" {
  if ($2 ~ /_OF$/) relation(idOf($3), $2, idOf(own))
  else relation(idOf(own), $2, idOf($3))
}

END {
  print "{"
  print "  \"spdxVersion\": \"SPDX-2.3\",\n  \"dataLicense\": \"CC0-1.0\",\n  \"SPDXID\": \"SPDXRef-DOCUMENT\","
  print "  \"name\": " quoted(own "-" version) ","
  print "  \"documentNamespace\": " quoted("https://loopside.example/spdx/" own "-" version "-" hash) ","
  print "  \"creationInfo\": {\"created\": " quoted(created) ", \"creators\": [\"Organization: The Loopside authors\"]},"
  print "  \"packages\": [\n" packages "\n  ],"
  print "  \"relationships\": [\n" relations "\n  ]"
  print "}"
}
