/** Ordinary words that lie one slip of the keyboard from a word that means something here. Never read as that word. */
export const COMMON_WORDS: ReadonlySet<string> = new Set(
  `small spell swell shell stall stick sticks sticky stock stack stuff stack struck snuck suck sucks shook shack shoes shop show shocking
  tangle tangled tangles tangling triangle single tinkle jingle couch touch tough rough though thought through drawn brown drone crown frown
  groan spare spares speak spear sparse sparkle sparkling sparkly spa park parks burden bunting turning running barking boring
  braking braked breaking breaks breakers broker baker bleach bleached bleed leach breath bread break broke cover covers cower clover
  clever hover over coves missing mixing misting passing moving massing smoke smokes smoker spoke spokes stoke stroke smoked
  drain drains train brain grain draining drift dream trips strip stripe trick traps strap stripes trial gases gasket gaskets glass
  grass gass heart heard hears hard heater heated heating hearing hurts hurry hunting shirts shorts shots start starts state
  still steel skill spill smart there these those where which while water waters waiter winter white wheel wheels whole world
  worse worst worth would could should shout south sound sounds round found bound mount mouse house hours horse hose hoses
  hoist hotel hotter pumps dumps plumb plump jumps lumps bumps floor flood flow flows blow blows below bellow yellow hello
  fells feels fuels wells tells sells bells balls calls falls halls walls holding folding scolding pulling polling filling
  feeling killing billing full fully pull pulls bull dull dusty rusty trust crust burst first fires hired wired tired fixed mixed
  valve value values salve motor motors rotor moter meter metal mental petal pedal level lever never seven fever every very
  empty slow slower slowly lower power powder tower shower plate plates place places plane plant plain paint point joint joins
  clean clear cleaner clears close closed loose lose lost last least leaks leans learn lean leaf leave leaves
  quedado quedada quedo queda quedan quemar quedar pagado apagado apagada pasado pasada pesado pegado pegar pagar parado parada
  sale salen salta saltar saldo saludo salud sueldo suelto sueltas suelta suela suelo vuelta vueltas vuelve suelte huevo nuevo nueva
  bomba bombas tumba rumba sombra sombras gasto gastos pasto gasta hasta basta pasta casta costa cesta resta fiesta
  llave llaves llama llamo llamar llena lleno llega llego fuego juego luego fuera fuerza fuerte suerte puerta puerto muerto
  huerto cuerpo cuerda cuerdas cerca cerco cerdo verde ver diente dientes gente frente fuente corriente caliente
  claro clara cloro color calor dolor valor olor flores flor tapas mapas capas etapa ropa copa sopa tropa nota bota rota
  rotas botas gotas gota todas todos todo modo lodo codo poco poca loco seco saco pozo mozo trozo hijos hojas ojos
  hoja ojeras atrapa trapo trapos tapado tapada tapar tocar toco toca tosca rosca mosca pesca fresca
  marea mareo marca marcas mancha manchas manguera manera manejar mano manos llano humor hombre hambre humano
  alambre alambres calmar calma cambiar cambio cambie campo saltado soltado gastado`.split(/\s+/u),
);
