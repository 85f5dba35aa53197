import type { ChannelRole } from "../../../shared/record/channel-role";

/** One pattern of words set apart by blanks: "_" stands for a blank in a phrase, "*" for any letters; a word without "*" at an end is whole there. */
function words(list: string): RegExp {
  const one = (word: string) => {
    const inside = word.replace(/_/g, " ?").replace(/\*/g, "\\w*");
    return `${word.startsWith("*") ? "" : "\\b"}${inside}${word.endsWith("*") ? "" : "\\b"}`;
  };
  return new RegExp(list.split(/\s+/).map(one).join("|"));
}

/**
 * Words of headings, folded (lower case, no accents, camel case and digits set apart), for each role in English, German, French, Spanish,
 * Portuguese, Italian and Dutch, and how much they weigh. Letters of instrument tags (PT, FIT, LT, TT, SI) after ISA-5.1; all else is common
 * practice, no source.
 */
export const ROLE_WORDS: readonly (readonly [ChannelRole, RegExp, number])[] = [
  [
    "pressure",
    words(
      "press pressure pressures prs prsr pression pressions presion presiones pressao pressoes pressione pressioni *druck *drucks *druk vacuum vacuo vuoto head druckhohe drukhoogte forderhohe hauteur_manometrique hmt altura_manometrica prevalenza opvoerhoogte manometer",
    ),
    3,
  ],
  ["pressure", /\bp[it]t?\b(?= ?\d| |$)|\bp ?\d{1,3}\b|^p$|^p |\bp$|\bdp\b/, 1],
  [
    "flow",
    words(
      "flow* flw durchfl* *volumenstrom *forderstrom durchsatz debit debits caudal* vazao vazoes portata *debiet doorstroming gasto fluss flujo fluxo flusso",
    ),
    3,
  ],
  ["flow", /\bf[iq]?t\b(?= ?\d| |$)|^q$|^q |\bq ?\d{1,3}\b|\bgpm\b|\blpm\b/, 1],
  [
    "speed",
    words(
      "speed* spd drehzahl* *drehzahl frequenc* *frequenz* *frequentie* frequence frecuencia freq vitesse velocidad* velocita *snelheid *toerental *toeren rpm giri umdrehung* rotation* regime hz rotacao rotazione drehfrequenz",
    ),
    3,
  ],
  ["speed", /\bs[it]t?\b(?= ?\d)|^n$|^n |^f$|^f /, 1],
  [
    "current",
    words(
      "current *motorstrom *pumpenstrom strom stromaufnahme phasenstrom courant corriente corrente *stroom stroomsterkte amp amps amperage intensite intensidad ampere assorbimento",
    ),
    2.5,
  ],
  ["current", /^i$|^i |\bi ?\d\b/, 1],
  ["power", words("power pwr *leistung leistung* puissance potencia potenza *vermogen* kw watt watts"), 3],
  [
    "running",
    words(
      "running run on on_off onoff lauft laeuft *betrieb betriebsmeldung marche marcha funcionando ligada ligado in_funzione in_marcia marcia aan aan_uit off draait ein ein_aus in_bedrijf en_service status *status sts state zustand etat estado stato toestand enabled encendida encendido accesa acceso active aktiv pump_cmd motor_cmd operating",
    ),
    2,
  ],
  ["temperature", words("temp temp* *temperatur temperatur* *temperatuur* thermocouple"), 3.5],
  ["temperature", /\bt[it]t?\b(?= ?\d)|^t$|^t |\bt ?\d\b/, 1],
  [
    "level",
    words(
      "hauteur_d'eau hauteur_eau altura_de_agua altura_agua altezza_acqua waterhoogte wasserhohe water_height level lvl *niveau nivel livello behalterstand* behaelterstand* tankstand* kesselstand* speicherstand* brunnenstand* *fullstand *fuellstand *pegel *peil depth profondeur *wasserstand *waterstand wasserspiegel fullhohe fuellhohe vulhoogte abstich flurabstand nappe",
    ),
    3,
  ],
  ["level", /\bl[it]t?\b(?= ?\d)|^h$|^h /, 1],
  [
    "volume",
    words(
      "total* tot volume volumen cumul* *zahler* *zaehler* compteur contador contatore *meterstand teller meter_reading pulse pulses pulsos pulsen impuls* gesamtmenge acumulado consumo summe totale odometer",
    ),
    2.5,
  ],
];

/** Headings that a person would not take for a measured quantity of the water system, whatever else they say. */
export const OTHER_WORDS = words(
  "speed_of_sound sound_speed sound_velocity schallgeschwindigkeit vitesse_du_son velocidad_del_sonido velocidade_do_som velocita_del_suono geluidssnelheid pressure_rate pressure_change rate_of_change apparent_power reactive_power scheinleistung blindleistung puissance_apparente puissance_reactive potencia_aparente potencia_reactiva potenza_apparente potenza_reattiva user operator benutzer utilisateur usuario utente day_of_week weekday wochentag flow_switch pressure_switch level_switch float_switch druckschalter stromungswachter pressostat* flussostato niveauschalter schwimmerschalter vlotterschakelaar direction *richtung direccion direcao direzione richting trend tendenz tendance tendencia tendenza anomal* label labels change_point alarm* alarme allarme storung* emergency note notes comment comments bemerkung* vibration* accel* humid* feuchte* *feuchte humedad umidita vochtigheid batter* bateri* batterij* akku* accu* pila pile vbat* vcc vdd signal_strength rssi set_point set_points setpoint* set_pressure set_speed set_flow set_value set_level set_temp* sp soll* consigne consigna target streefwaarde power_factor cos_phi line_freq* mains_freq* grid_freq* supply_freq* netzfrequenz frequence_reseau frequence_du_reseau frecuencia_red frecuencia_de_red frequencia_da_rede frequenza_rete frequenza_di_rete netfrequentie barometr* barometer atmospher* atmosph* luftdruck error errors fault faults fehler* quality crc checksum latitude longitude torque drehmoment couple coppia ph turbidity conductivity leitfahigkeit chlorine run_time running_time run_hours runtime hours temps_de_marche temps_de_fonctionnement horimetro horometro draaiuren wind* vento viento vitesse_du_vent flow_velocity fliessgeschwindigkeit stromungsgeschwindigkeit *stunden heures serial energy energie kwh starts starts_count start_count number_of_starts rain* niederschlag* neerslag* precip* pluie pluviom* lluvia chuva pioggia altitude",
);

/** Words that name another thing or only a place: "valve position" is no channel of the water system, "pressure before valve" is one. */
export const PLACE_OR_OTHER_WORDS = words("supply versorgung* valve ventil* vanne valvula valvola klep site leak*");

/** Words for the number, the code or the address of a thing, whatever the thing measures. */
export const ID_WORDS = words(
  "id ids ident* no nr num number numero nummer serial* seriennummer tag code codes address adresse kanal channel canal canale voie kanaal slot port",
);

/** Headings that name a machine, of which a column may hold anything. */
export const MACHINE_WORDS = words(
  "pump* motor* pompe pompes bomba bombas pompa pompe pomp moteur motore vfd drive umrichter variateur inverter",
);

/** What is known of a machine beside its speed and its state. */
export const MACHINE_FACTS = words(
  "mode modus modo efficien* *wirkungsgrad rendement rendimento rendimiento load last *auslastung charge carga carico belasting cycle* *zyklen code id address number",
);

/** Headings of a voltage: another quantity, unless they name a measured one whose raw signal it is. */
export const SIGNAL_WORDS = words("voltage *spannung tension tensione tensao spanning voltaje");

/** Headings that say nothing of what was measured. */
export const GENERIC_WORDS =
  /^(?:(?:ch|chan|channel|kanal|canal|canale|voie|kanaal|value|values|val|sensor|input|ai|ain|analog|analogue|analogeingang|eingang|entree|entrada|ingresso|ingang|data|messwert|wert|mesure|valeur|valor|valore|waarde|reading|probe|port|slot|y|col|column|x|a|b|c|mv|measurement|signal|in|raw|adc|loop|transducer|transmitter|unnamed)[ a-d]?)?[ #]*\d*(?: (?:ma|v|mv|counts?|adc|raw|value|signal|loop))?$/;
