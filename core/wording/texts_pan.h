// SPDX-License-Identifier: GPL-3.0-or-later
// Pan against fire, the grind and the sieves, in plain sentences. Spanish from memory, no source.
#pragma once

#include "core/wording/text.h"

namespace prillbook::wording {

inline constexpr Text pan_texts[]{
    {"pan.grind", " at a grind of 80 % through {grind}", " con una molienda de 80 % bajo {grind}"},
    {"pan.alone", "That is the gold that comes free by gravity{grind}; gold still locked in the rock does not show in a pan.",
     "Ese es el oro que se libera por gravedad{grind}; el oro todavía encerrado en la roca no se ve en la batea."},
    {"pan.alone_none", "No gold was seen in the pan{grind}. Gold still locked in the rock does not show in a pan.",
     "No se vio oro en la batea{grind}. El oro todavía encerrado en la roca no se ve en la batea."},
    {"pan.share", "The pan caught {share} of the gold that fire assay found: {gold}{grind}.",
     "La batea atrapó {share} del oro que halló el ensaye a fuego: {gold}{grind}."},
    {"pan.no_share", "The pan caught {gold}{grind}; fire assay saw no gold, so there is no share to give.",
     "La batea atrapó {gold}{grind}; el ensaye a fuego no vio oro, así que no hay proporción que dar."},
    {"pan.together",
     "Put together again, what the pan test gave (free gold, and what was found in what it left) makes {head} of gold.",
     "Sumado de nuevo, lo que dio el ensaye en batea (oro libre y lo hallado en lo que dejó) hace {head} de oro."},
    {"pan.together_closed",
     "Put together again, what the pan test gave (free gold, and what was found in what it left) makes {head} of gold, {closure} "
     "of what fire assay found.",
     "Sumado de nuevo, lo que dio el ensaye en batea (oro libre y lo hallado en lo que dejó) hace {head} de oro, {closure} de lo "
     "que halló el ensaye a fuego."},
    {"pan.free", "Of that the free gold is {free}.", "De eso, el oro libre es {free}."},
    {"pan.free_and_remainder", "Of that the free gold is {free}, free gold and concentrate remainder together {both}.",
     "De eso, el oro libre es {free}; oro libre y resto del concentrado juntos, {both}."},
    {"pan.remainder_missing", "The concentrate remainder was not assayed; the gold that is missing may be in it.",
     "El resto del concentrado no se ensayó; el oro que falta puede estar en él."},
    {"pan.too_heavy", "Remainder and tail weigh more than the portion panned: a weighing or the moisture is in doubt.",
     "El resto y las colas pesan más que la porción bateada: una pesada o la humedad está en duda."},
    {"pan.advice",
     "Two things can hold gold back: it is still locked in the rock, or it was free and got lost.{assay} A finer grind and a "
     "second pan test show whether grinding frees more; gold in tellurides and fine gold in sulphides does not come free by "
     "grinding.",
     "Dos cosas pueden retener el oro: sigue encerrado en la roca, o estaba libre y se perdió.{assay} Una molienda más fina y un "
     "segundo ensaye en batea muestran si moler libera más; el oro en telururos y el oro fino en sulfuros no se libera al "
     "moler."},
    {"pan.advice_assay", " A fire assay of the concentrate remainder and the tail would tell which.",
     " Un ensaye a fuego del resto del concentrado y de las colas diría cuál de las dos."},
    {"pan.not_compared", "Pan and fire assay could not be compared{detail}.",
     "La batea y el ensaye a fuego no se pudieron comparar{detail}."},
    {"pan.several", "Pan tests stand each at its own grind and are not averaged; this speaks of the newest that has a result.",
     "Cada ensaye en batea vale para su propia molienda y no se promedian; esto habla del más nuevo que tiene resultado."},

    {"recovery.open", "{share} (at least {lo} %; an upper end can not be told)",
     "{share} (al menos {lo} %; el extremo superior no se puede decir)"},
    {"recovery.range", "{share} (95 % interval {lo} to {hi} %)", "{share} (intervalo de 95 %: {lo} a {hi} %)"},
    {"verdict.left", "The pan left gold behind: fire assay found {gap} more than the pan caught{basis}",
     "La batea dejó oro atrás: el ensaye a fuego halló {gap} más de lo que atrapó la batea{basis}"},
    {"verdict.no_gap", "Pan and fire assay agree as far as these figures can tell: no gold left behind is shown{basis}",
     "La batea y el ensaye a fuego coinciden hasta donde estas cifras pueden decir: no se muestra oro dejado atrás{basis}"},
    {"verdict.above",
     "The pan caught {gap} more than fire assay found, which is common where gold can be seen: one portion held a grain that the "
     "other did not{basis}",
     "La batea atrapó {gap} más de lo que halló el ensaye a fuego, lo que es común donde el oro se ve: una porción tenía un "
     "grano "
     "que la otra no{basis}"},
    {"verdict.open", "Whether the pan left gold behind is not determined: an uncertainty is missing on one side{basis}",
     "Si la batea dejó oro atrás no está determinado: falta una incertidumbre de un lado{basis}"},
    {"basis.weighing", "; sampling not judged.", "; muestreo no juzgado."},
    {"basis.sampling", "; the chance that one portion holds more grains of gold than another is allowed for.",
     "; se tiene en cuenta que por azar una porción puede tener más granos de oro que otra."},
    {"basis.none", ".", ".", false},

    {"grind.not_freed", "Gold in tellurides and fine gold in sulphides does not come free by grinding.",
     "El oro en telururos y el oro fino en sulfuros no se libera al moler."},
    {"grind.more", "Yes: the last finer grind freed more gold, and a finer one still may.",
     "Sí: la última molienda más fina liberó más oro, y una todavía más fina puede hacerlo."},
    {"grind.less", "No: the last finer grind caught less. Gold ground too fine floats off the pan.",
     "No: la última molienda más fina atrapó menos. El oro molido demasiado fino flota y se va de la batea."},
    {"grind.not_shown", "These figures do not ask for it: the last finer grind did not show more.",
     "Estas cifras no lo piden: la última molienda más fina no mostró más."},
    {"grind.unknown", "That can not be told: an uncertainty is missing.", "No se puede decir: falta una incertidumbre."},
    {"grind.one_test", "One pan test alone does not tell: it takes a figure for all the gold in the rock.",
     "Un solo ensaye en batea no lo dice: hace falta una cifra de todo el oro en la roca."},
    {"grind.trial",
     "Yes, a trial is worth it: gold stayed behind at this grind, and a second pan test of a finer one shows whether grinding "
     "frees it.",
     "Sí, vale la pena una prueba: con esta molienda quedó oro atrás, y un segundo ensaye en batea con una más fina muestra si "
     "moler lo libera."},
    {"grind.no_gap", "These figures do not ask for it: no gold left behind is shown at this grind.",
     "Estas cifras no lo piden: con esta molienda no se muestra oro dejado atrás."},
    {"grind.above",
     "These figures do not tell: the pan caught more than the other portion held. More portions come before a finer grind.",
     "Estas cifras no lo dicen: la batea atrapó más de lo que tenía la otra porción. Antes de moler más fino hacen falta más "
     "porciones."},

    {"size.line", "{test}: {words}", "{test}: {words}", false},
    {"size.waits", "Waits for {what}.", "Espera {what}."},
    {"size.waits_short", "waits for {what}", "espera {what}"},
    {"size.masses", "{count} masses", "{count} masas"},
    {"size.spoiled", "Spoiled: {reason}.", "Echado a perder: {reason}."},
    {"size.spoiled_short", "spoiled", "echado a perder", false},
    {"size.refused", "No curve: {detail}.", "Sin curva: {detail}."},
    {"size.contradict", "the masses contradict each other", "las masas se contradicen"},
    {"size.contradict_short", "masses contradict each other", "las masas se contradicen", false},
    {"size.outside", "P80 outside the stack", "P80 fuera de la serie", false},
    {"size.both", "80 % passes {p80} (P80), half passes {p50} (P50).", "El 80 % pasa {p80} (P80), la mitad pasa {p50} (P50)."},
    {"size.p80", "80 % passes {p80} (P80).", "El 80 % pasa {p80} (P80)."},
    {"size.p50", "Half passes {p50} (P50).", "La mitad pasa {p50} (P50)."},
    {"size.above", "P80 is not determined: it lies above the top sieve, {sieve}, which {percent} pass.",
     "El P80 no está determinado: queda por encima del tamiz superior, {sieve}, por el que pasa {percent}."},
    {"size.under", "P80 is not determined: it lies below the finest sieve, {sieve}, which {percent} pass.",
     "El P80 no está determinado: queda por debajo del tamiz más fino, {sieve}, por el que pasa {percent}."},
    {"size.apart", "The sieves either side of P80 differ {times} times: it is a rough figure.",
     "Los tamices a ambos lados del P80 difieren {times} veces: es una cifra aproximada."},
    {"size.no_metal", "Which size holds the gold can not be told yet: {missing} not assayed.",
     "Todavía no se puede decir qué tamaño tiene el oro: falta ensayar {missing}."},
    {"size.richest", "Of the sizes {size} holds most gold: {gold} of it in {mass} of the mass.",
     "De los tamaños, {size} tiene más oro: {gold} de él en {mass} de la masa."},
    {"size.built_up", "Put together from its sizes the portion holds {gold} g/t of gold.",
     "Sumada de sus tamaños, la porción tiene {gold} g/t de oro."},
    {"size.caught", "P80 {p80}: {gold} caught.", "P80 {p80}: {gold} atrapados."},
    {"size.caught_share", "P80 {p80}: {gold} caught, {share} of the gold that fire assay found.",
     "P80 {p80}: {gold} atrapados, {share} del oro que halló el ensaye a fuego."},
    {"size.step_more", "From P80 {coarse} to {fine} the pan caught {difference} more{judged}",
     "De P80 {coarse} a {fine} la batea atrapó {difference} más{judged}"},
    {"size.step_less", "From P80 {coarse} to {fine} the pan caught {difference} less{judged}",
     "De P80 {coarse} a {fine} la batea atrapó {difference} menos{judged}"},
    {"size.beyond", ", which is beyond the uncertainty{sampling}", ", lo que supera la incertidumbre{sampling}"},
    {"size.not_beyond", ", which is not beyond the uncertainty{sampling}", ", lo que no supera la incertidumbre{sampling}"},
    {"size.not_told", "; whether that is beyond the uncertainty is not determined.",
     "; si eso supera la incertidumbre no está determinado."},
    {"size.unsampled", "; sampling not judged.", "; muestreo no juzgado."},
    {"size.sampled", ", sampling included.", ", muestreo incluido."},
};

}  // namespace prillbook::wording
