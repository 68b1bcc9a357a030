"""Strength of green wood as printed: one row a species, each with where it stands and how that was seen.

Compression parallel to grain and modulus of rupture of small clear specimens, mean values, MPa.
"""

from typing import Literal, NamedTuple

Seen = Literal["read", "memory"]

HANDBOOK = "Wood Handbook, FPL-GTR-282 (2021), table 5-3a"
D2555 = "ASTM D2555, table 1"
STUTTGART = "Wessolly & Erb, Handbuch der Baumstatik, 1998, Stuttgart table"
LOWER = "the lower of Wessolly & Erb 1998 and Lavers, The strength properties of timber, 1983"


# The same by their ids in the bibliography.
WORKS = {
    HANDBOOK: ("wood_handbook",),
    D2555: ("astm_d2555",),
    STUTTGART: ("wessolly_erb",),
    LOWER: ("wessolly_erb", "lavers"),
}


class SpeciesRow(NamedTuple):
    """One species."""

    name: str  # genus, kind; as the table prints it
    compression_mpa: float
    rupture_mpa: float | None
    source: str
    seen: Seen
    also: tuple[str, ...] = ()  # other names of the same


def _read(name: str, compression: float, rupture: float, *also: str) -> SpeciesRow:
    return SpeciesRow(name, compression, rupture, HANDBOOK, "read", also)


def _us(name: str, compression: float, rupture: float, *also: str) -> SpeciesRow:
    return SpeciesRow(name, compression, rupture, HANDBOOK, "memory", also)


def _astm(name: str, compression: float, rupture: float, *also: str) -> SpeciesRow:
    return SpeciesRow(name, compression, rupture, D2555, "read", also)


def _europe(name: str, compression: float, *also: str, source: str = STUTTGART) -> SpeciesRow:
    return SpeciesRow(name, compression, None, source, "memory", also)


ROWS: tuple[SpeciesRow, ...] = (
    # Hardwoods of North America
    _us("alder, red", 20.4, 45, "alnus rubra"),
    _us("ash, black", 15.9, 41, "fraxinus nigra"),
    _us("ash, blue", 28.8, 66),
    _us("ash, green", 29.0, 66, "fraxinus pennsylvanica"),
    _us("ash, oregon", 24.2, 52, "fraxinus latifolia"),
    _read("ash, white", 27.5, 66, "fraxinus americana"),
    _us("aspen, bigtooth", 17.2, 37, "populus grandidentata"),
    _us("aspen, quaking", 14.8, 35, "populus tremuloides", "trembling aspen"),
    _us("basswood, american", 15.3, 34, "tilia americana", "american linden"),
    _us("beech, american", 24.5, 59, "fagus grandifolia"),
    _us("birch, paper", 16.3, 44, "betula papyrifera"),
    _us("birch, sweet", 25.8, 65, "betula lenta"),
    _us("birch, yellow", 23.3, 57, "betula alleghaniensis"),
    _us("butternut", 16.7, 37, "juglans cinerea"),
    _read("cherry, black", 24.4, 55, "prunus serotina"),
    _us("chestnut, american", 17.0, 39, "castanea dentata"),
    _us("cottonwood, balsam poplar", 11.7, 27, "balsam poplar", "populus balsamifera"),
    _astm("cottonwood, black", 15.2, 34, "populus trichocarpa"),
    _us("cottonwood, eastern", 15.7, 37, "populus deltoides"),
    _us("elm, american", 20.1, 50, "ulmus americana"),
    _us("elm, rock", 26.1, 66, "ulmus thomasii"),
    _us("elm, slippery", 22.9, 55, "ulmus rubra"),
    _us("hackberry", 18.3, 45, "celtis occidentalis"),
    _us("hickory, bitternut", 31.5, 71, "carya cordiformis"),
    _us("hickory, mockernut", 30.9, 77, "carya tomentosa"),
    _us("hickory, pecan", 27.5, 68, "pecan", "carya illinoinensis"),
    _us("hickory, pignut", 33.2, 81, "carya glabra"),
    _us("hickory, shagbark", 31.6, 76, "carya ovata"),
    _us("hickory, shellbark", 27.0, 72, "carya laciniosa"),
    _us("honeylocust", 30.5, 70, "honey locust", "gleditsia triacanthos"),
    _us("magnolia, cucumbertree", 21.6, 51, "cucumbertree"),
    _us("magnolia, southern", 18.6, 47, "magnolia grandiflora"),
    _us("maple, bigleaf", 22.3, 51, "acer macrophyllum"),
    _us("maple, black", 22.5, 54, "acer nigrum"),
    _us("maple, red", 22.6, 53, "acer rubrum"),
    _us("maple, silver", 17.2, 40, "acer saccharinum"),
    _read("maple, sugar", 27.7, 65, "acer saccharum"),
    _us("oak, black", 23.9, 57, "quercus velutina"),
    _us("oak, bur", 22.7, 50, "quercus macrocarpa"),
    _us("oak, cherrybark", 31.9, 74),
    _us("oak, chestnut", 24.3, 55, "quercus montana"),
    _us("oak, laurel", 21.9, 54, "quercus laurifolia"),
    _us("oak, live", 37.4, 82, "quercus virginiana"),
    _read("oak, northern red", 23.7, 57, "red oak", "quercus rubra"),
    _us("oak, overcup", 23.2, 55),
    _us("oak, pin", 25.4, 57, "quercus palustris"),
    _us("oak, post", 24.0, 56, "quercus stellata"),
    _us("oak, scarlet", 28.2, 72, "quercus coccinea"),
    _us("oak, southern red", 20.9, 48, "quercus falcata"),
    _us("oak, swamp white", 30.1, 68, "quercus bicolor"),
    _us("oak, water", 25.8, 61, "quercus nigra"),
    _read("oak, white", 24.5, 57, "quercus alba"),
    _us("oak, willow", 20.7, 51, "quercus phellos"),
    _us("sassafras", 18.8, 41),
    _us("sweetgum", 21.0, 49, "liquidambar", "liquidambar styraciflua"),
    _us("sycamore, american", 20.1, 45, "platanus occidentalis", "buttonwood"),
    _us("tupelo, black", 21.0, 48, "blackgum", "nyssa sylvatica"),
    _us("walnut, black", 29.6, 66, "juglans nigra"),
    _us("willow, black", 14.1, 33, "salix nigra"),
    _read("yellow-poplar", 18.3, 41, "tuliptree", "tulip tree", "tulip poplar", "liriodendron tulipifera"),
    # Softwoods of North America
    _astm("baldcypress", 24.7, 46, "bald cypress", "taxodium distichum"),
    _us("cedar, atlantic white", 16.5, 32),
    _us("cedar, eastern red", 24.6, 48, "eastern redcedar", "juniperus virginiana"),
    _us("cedar, incense", 21.7, 43, "calocedrus decurrens"),
    _us("cedar, northern white", 13.7, 29, "arborvitae", "thuja occidentalis"),
    _astm("cedar, port orford", 21.7, 45, "port-orford-cedar", "lawson cypress"),
    _us("cedar, western red", 19.1, 36, "western redcedar", "thuja plicata"),
    _us("cedar, yellow", 21.0, 44, "nootka cypress"),
    _read("douglas-fir, coast", 26.1, 53, "pseudotsuga menziesii"),
    _read("douglas-fir, interior north", 23.9, 51),
    _us("douglas-fir, interior south", 21.4, 47),
    _read("douglas-fir, interior west", 26.7, 53),
    _read("fir, balsam", 18.1, 38, "abies balsamea"),
    _read("fir, california red", 19.0, 40),
    _read("fir, grand", 20.3, 40, "abies grandis"),
    _read("fir, noble", 20.8, 43, "abies procera"),
    _read("fir, pacific silver", 21.6, 44),
    _read("fir, subalpine", 15.9, 34, "abies lasiocarpa"),
    _read("fir, white", 20.0, 41, "abies concolor"),
    _read("hemlock, eastern", 21.2, 44, "tsuga canadensis"),
    _read("hemlock, mountain", 19.9, 43),
    _read("hemlock, western", 23.2, 46, "tsuga heterophylla"),
    _read("larch, western", 25.9, 53, "larix occidentalis"),
    _us("pine, eastern white", 16.8, 34, "pinus strobus", "weymouth pine"),
    _read("pine, jack", 20.3, 41, "pinus banksiana"),
    _read("pine, loblolly", 24.2, 50, "pinus taeda"),
    _read("pine, lodgepole", 18.0, 38, "pinus contorta"),
    _read("pine, longleaf", 29.8, 59, "pinus palustris"),
    _us("pine, pitch", 20.3, 47, "pinus rigida"),
    _read("pine, pond", 25.2, 51),
    _read("pine, ponderosa", 16.9, 35, "pinus ponderosa"),
    _read("pine, red", 18.8, 40, "pinus resinosa"),
    _read("pine, shortleaf", 24.3, 51, "pinus echinata"),
    _read("pine, slash", 26.3, 60, "pinus elliottii"),
    _read("pine, spruce", 19.6, 41),
    _read("pine, sugar", 17.0, 34, "pinus lambertiana"),
    _read("pine, virginia", 23.6, 50, "pinus virginiana"),
    _read("pine, western white", 16.8, 32, "pinus monticola"),
    # The young-growth row, the weaker one.
    _us("redwood", 21.4, 41, "coast redwood", "sequoia sempervirens"),
    _us("spruce, black", 19.6, 42, "picea mariana"),
    _read("spruce, engelmann", 15.0, 32, "picea engelmannii"),
    _us("spruce, red", 18.8, 41, "picea rubens"),
    _us("spruce, sitka", 16.2, 34, "picea sitchensis"),
    _us("spruce, white", 16.2, 34, "picea glauca"),
    _us("tamarack", 24.0, 50, "larix laricina"),
    # Trees of Europe
    _europe("alder, common", 20.0, "black alder", "alnus glutinosa"),
    _europe("ash, european", 26.0, "common ash", "fraxinus excelsior"),
    _europe("beech, european", 22.5, "common beech", "copper beech", "red beech", "fagus sylvatica"),
    _europe("birch, silver", 22.0, "white birch", "betula pendula"),
    _europe("chestnut, sweet", 22.0, "spanish chestnut", "castanea sativa", source=LOWER),
    _europe(
        "elm, european", 17.0, "english elm", "wych elm", "field elm", "ulmus", "ulmus glabra", source=LOWER
    ),
    _europe("fir, silver", 15.0, "european fir", "abies alba"),
    _europe("hornbeam", 16.0, "carpinus betulus"),
    _europe("horse chestnut", 14.0, "horse-chestnut", "conker tree", "aesculus hippocastanum"),
    _europe("larch, european", 17.0, "larix decidua"),
    _europe("lime", 17.0, "tilia", "common lime", "small-leaved lime", "large-leaved lime", "tilia cordata"),
    _europe("maple, field", 25.5, "acer campestre"),
    _europe("maple, norway", 25.5, "acer platanoides"),
    _europe("maple, sycamore", 25.0, "european sycamore", "acer pseudoplatanus"),
    _europe(
        "oak, european", 27.5, "english oak", "pedunculate oak", "sessile oak", "common oak", "quercus robur"
    ),
    _europe("pine, scots", 17.0, "scotch pine", "pinus sylvestris"),
    _europe("plane", 27.0, "london plane", "plane tree", "platanus"),
    _europe("poplar, black", 16.0, "lombardy poplar", "hybrid poplar", "populus nigra"),
    _europe("pear", 17.0, "pyrus communis"),
    # The Wood Handbook gives it 46.9 MPa; the lower figure is taken.
    _europe("robinia", 20.0, "false acacia", "black locust", "locust, black", "robinia pseudoacacia"),
    _europe("sequoia, giant", 18.0, "wellingtonia", "sequoiadendron giganteum"),
    _europe("sophora", 20.0, "pagoda tree", "styphnolobium japonicum"),
    _europe("spruce, serbian", 16.0, "picea omorika"),
    _europe("tree of heaven", 16.0, "ailanthus", "ailanthus altissima"),
    _europe("whitebeam", 16.0, "sorbus aria"),
    _europe("cedar, deodar", 15.0, "cedrus deodara"),
    _europe("maple, box elder", 20.0, "box elder", "boxelder", "acer negundo"),
    _europe("spruce, norway", 17.0, "common spruce", "picea abies", source=LOWER),
    _europe("willow, white", 16.0, "weeping willow", "salix alba"),
)
# Words that mean one of several: the weakest of them is taken.
ONE_OF = {
    "acacia": ("robinia",),
    "arborvitae": ("cedar, northern white",),
    "chestnut": ("chestnut, american", "chestnut, sweet", "horse chestnut"),
    "cottonwood": ("cottonwood, balsam poplar", "cottonwood, black", "cottonwood, eastern"),
    "linden": ("lime", "basswood, american"),
    "locust": ("robinia", "honeylocust"),
    "poplar": ("poplar, black", "cottonwood, balsam poplar"),
    "aspen": ("aspen, bigtooth", "aspen, quaking"),
    "european aspen": ("aspen, quaking",),
    "sycamore": ("sycamore, american", "maple, sycamore"),
    "thuja": ("cedar, northern white", "cedar, western red"),
    "tupelo": ("tupelo, black",),
    "walnut": ("walnut, black", "butternut"),
    "redcedar": ("cedar, eastern red", "cedar, western red"),
}
