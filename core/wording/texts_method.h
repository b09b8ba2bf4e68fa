// SPDX-License-Identifier: GPL-3.0-or-later
// How it was done, and what the client's pages may not be taken for. Spanish from memory, no source.
#pragma once

#include "core/wording/text.h"

namespace prillbook::wording {

inline constexpr Text method_texts[]{
    {"method.pan", "Pan test: a weighed portion was panned by hand, the free gold drawn off, brought to a bead and weighed.",
     "Ensaye en batea: una porción pesada se bateó a mano; el oro libre se separó, se llevó a un botón y se pesó."},
    {"method.fire",
     "Fire assay: a weighed portion was fused with litharge and flux; the lead takes up gold and silver, is drawn off in a "
     "cupel, "
     "and the bead left was weighed.",
     "Ensaye a fuego: una porción pesada se fundió con litargirio y fundente; el plomo recoge oro y plata, se elimina en la "
     "copela, y se pesó el botón que queda."},
    {"method.collector",
     "Collector silver: silver was added in the crucible to gather the gold, and taken off again by calculation.",
     "Plata colectora: se agregó plata en el crisol para recoger el oro, y se descontó por cálculo."},
    {"method.sieve",
     "Sieve analysis: a weighed portion was shaken through a stack of sieves and what lay on each was weighed; P80 and P50 are "
     "read between two sieves, linear in per cent passing over the logarithm of size, and never beyond the stack.",
     "Análisis granulométrico: una porción pesada se sacudió por una serie de tamices y se pesó lo que quedó en cada uno; P80 y "
     "P50 se leen entre dos tamices, de forma lineal en por ciento pasante sobre el logaritmo del tamaño, y nunca más allá de la "
     "serie."},
    {"method.silver_fire",
     "Silver is by difference: the bead less its gold, less the silver that was put in or came with the reagents.",
     "La plata es por diferencia: el botón menos su oro, menos la plata que se puso o que vino con los reactivos."},
    {"method.silver_pan", "Silver is by difference: the bead less its gold.",
     "La plata es por diferencia: el botón menos su oro."},
    {"method.units",
     "g/t is grams of metal in a metric tonne of rock; ozt/short ton is troy ounces in a short ton of 2000 lb. 1 ozt/short ton "
     "is 34.29 g/t.",
     "g/t son gramos de metal en una tonelada métrica de roca; ozt/ton corta son onzas troy en una tonelada corta de 2000 lb. "
     "1 ozt/ton corta son 34,29 g/t."},
    {"fineness.parted", "Parted: the silver of the bead was dissolved in acid and the gold left was weighed.",
     "Apartado: la plata del botón se disolvió en ácido y se pesó el oro que quedó."},
    {"fineness.density", "Density: the bead was weighed in air and under a liquid; copper makes such a figure read low.",
     "Densidad: el botón se pesó en aire y bajo un líquido; el cobre hace que esa cifra salga baja."},
    {"fineness.touchstone", "Touchstone: the streak was compared with needles of known gold, to ± 30 ‰.",
     "Piedra de toque: la raya se comparó con puntas de oro conocido, a ± 30 ‰."},
    {"fineness.colour",
     "Colour: the bead was placed in a colour class, to ± 100 ‰ because printed statements differ by that much; a guide, not a "
     "measurement.",
     "Color: el botón se clasificó por su color, a ± 100 ‰ porque los datos impresos difieren en eso; una guía, no una "
     "medición."},
    {"fineness.stated", "Stated: the figure came from elsewhere and was not checked here.",
     "Declarado: la cifra vino de otra parte y no se comprobó aquí."},
    {"caution.not_certified", "This is no certified assay.", "Este no es un ensaye certificado."},
    {"caution.as_received", "It speaks of the sample as we received it, not of the ground or the heap that it came from.",
     "Habla de la muestra tal como la recibimos, no del terreno ni del montón de donde salió."},
    {"caution.reporting",
     "It is not meant for public reporting of mineral resources or reserves; that is for a qualified person, under the code that "
     "applies where you are.",
     "No sirve para informar públicamente recursos o reservas minerales; eso corresponde a una persona calificada, según el "
     "código que rija donde usted está."},
    {"caution.pan", "What a pan catches by hand is not what a mill would recover.",
     "Lo que una batea atrapa a mano no es lo que recuperaría una planta."},
    {"caution.licensed",
     "Before you treat ore with fire, acid, litharge, cyanide or mercury, read the product sheets and the local rules and "
     "consult "
     "licensed practice.",
     "Antes de tratar mena con fuego, ácido, litargirio, cianuro o mercurio, lea las hojas de seguridad y las normas locales y "
     "consulte a quien tenga licencia para ello."},
};

}  // namespace prillbook::wording
