// SPDX-License-Identifier: GPL-3.0-or-later
// The account of a lot that was milled for its owner. Spanish from memory, no source.
#pragma once

#include "core/wording/text.h"

namespace prillbook::wording {

inline constexpr Text lot_texts[]{
    {"heading.lot", "The account of the milling lot", "La cuenta del lote molido a maquila"},
    {"lot.what", "What", "Qué", false},
    {"lot.mass", "Mass", "Masa", false},
    {"lot.grade", "Grade or fineness", "Ley o fino", false},
    {"lot.of_head", "Of the head", "De la cabeza", false},
    {"lot.head", "Head, dry", "Cabeza, seca", false},
    {"lot.bullion", "Bullion", "Doré", false},
    {"lot.concentrate", "Concentrate kept", "Concentrado guardado", false},
    {"lot.tail", "Tail, dry", "Colas, secas", false},
    {"lot.accounted", "Accounted for", "Justificado", false},
    {"lot.unaccounted", "Unaccounted for", "No justificado", false},
    {"lot.contradict", "The masses of the lot contradict each other: the concentrate is heavier than what was milled.",
     "Las masas del lote se contradicen: el concentrado pesa más que lo molido."},
    {"lot.when", " on {date}", " el {date}"},
    {"lot.milled", "{mass} was milled{when}.", "Se molieron {mass}{when}."},
    {"lot.milled_moist", "{mass} was milled{when}, with {moisture} of water: {dry} of dry rock.",
     "Se molieron {mass}{when}, con {moisture} de agua: {dry} de roca seca."},
    {"lot.share", "{share} of the gold of the head is accounted for.", "{share} del oro de la cabeza está justificado."},
    {"lot.waits", "The account can not be closed yet: it lacks {what}.", "La cuenta todavía no se puede cerrar: falta {what}."},
    {"lot.needs_mass", "the mass milled", "la masa molida"},
    {"lot.needs_head", "the grade of the head", "la ley de cabeza"},
    {"lot.needs_bullion", "the bullion and its fineness", "el doré y su fino"},
    {"lot.needs_tail", "the grade of the tail", "la ley de las colas"},
    {"lot.needs_concentrate", "the grade of the concentrate", "la ley del concentrado"},
    {"lot.melted", "The sponge weighed {sponge}; melting left {bullion} of bullion.",
     "La esponja pesó {sponge}; al fundirla quedaron {bullion} de doré."},
    {"lot.split", "Of the {gold} of gold in the bullion {owner} is the owner's ({percent}) and {mill} the mill's.",
     "De los {gold} de oro en el doré, {owner} son del dueño ({percent}) y {mill} de la planta."},
    {"lot.agreed", "Agreed: {words}.", "Acordado: {words}."},
};

}  // namespace prillbook::wording
