"""Makes the fonts that the papers carry, from packages of the npm registry.

Not part of any build: the result is committed beside this file and does not change.

    npm pack @fontsource/atkinson-hyperlegible-next@5.3.0 dejavu-fonts-ttf@2.37.3
    python make_fonts.py FOLDER-OF-THE-TWO-ARCHIVES     # wants fonttools 4.68

- The text face: the two web parts (Latin, Latin extended) of each weight merged into one TTF.
- The face for what the first has not: cut to the scripts that names are written in where winters
  are cold, to arrows and to signs of mathematics. Names of the licences stand beside the fonts.
"""

import io
import pathlib
import sys
import tarfile

from fontTools import merge, subset
from fontTools.ttLib import TTFont

OUT = pathlib.Path(__file__).resolve().parent
TEXT = "package/files/atkinson-hyperlegible-next-{}-{}-normal.woff"
# Latin and its extensions, Greek, Cyrillic, Armenian, Hebrew, Arabic, Canadian syllabics,
# punctuation, signs of units, arrows, mathematics, shapes, Arabic forms.
RANGES = [
    (0x20, 0x24F), (0x250, 0x36F), (0x370, 0x52F), (0x531, 0x58F), (0x591, 0x5F4),
    (0x600, 0x6FF), (0x1400, 0x167F), (0x1E00, 0x1FFF), (0x2010, 0x205E), (0x2070, 0x20BF),
    (0x2100, 0x214F), (0x2150, 0x21FF), (0x2200, 0x22FF), (0x25A0, 0x25FF), (0xFB1D, 0xFDFF),
    (0xFE70, 0xFEFF),
]


def archive(folder, begins):
    path = next(pathlib.Path(folder).glob(begins + "*.tgz"))
    return tarfile.open(path)


def part(tar, name):
    return io.BytesIO(tar.extractfile(name).read())


def text_face(tar, weight, word):
    parts = []
    for script in ("latin", "latin-ext"):
        font = TTFont(part(tar, TEXT.format(script, weight)))
        font.flavor = None
        for table in ("STAT", "GSUB" if script == "latin-ext" else "STAT"):
            if table in font:
                del font[table]
        out = io.BytesIO()
        font.save(out)
        out.seek(0)
        parts.append(out)
    font = merge.Merger().merge(parts)
    family = "Atkinson Hyperlegible Next"
    for record in font["name"].names:
        said = {1: family, 2: word, 4: f"{family} {word}", 6: f"AtkinsonHyperlegibleNext-{word}",
                16: family, 17: word}.get(record.nameID)
        if said:
            record.string = said
    font["OS/2"].usWeightClass = int(weight)
    font["head"].modified = font["head"].created
    font.recalcTimestamp = False
    font.save(OUT / f"AtkinsonHyperlegibleNext-{word}.ttf")


def other_face(tar):
    options = subset.Options(layout_features=["*"], hinting=False, notdef_outline=True)
    font = subset.load_font(part(tar, "package/ttf/DejaVuSans.ttf"), options)
    cut = subset.Subsetter(options)
    cut.populate(unicodes=[c for a, b in RANGES for c in range(a, b + 1)])
    cut.subset(font)
    font.recalcTimestamp = False
    font.save(OUT / "DejaVuSans-cut.ttf")


def main():
    folder = sys.argv[1]
    with archive(folder, "fontsource-atkinson-hyperlegible-next") as tar:
        text_face(tar, "400", "Regular")
        text_face(tar, "600", "SemiBold")
        (OUT / "OFL.txt").write_bytes(part(tar, "package/LICENSE").read())
    with archive(folder, "dejavu-fonts-ttf") as tar:
        other_face(tar)
        (OUT / "DejaVu-LICENSE.txt").write_bytes(part(tar, "package/LICENSE").read())


if __name__ == "__main__":
    main()
