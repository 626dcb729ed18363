// <bridletie-quote>: what re-covering a piece of furniture takes, asked of a
// Bridletie service on any page. README says how to embed, fill and theme it.
// It depends on nothing, stores nothing and sends no cookie.

/** @typedef {import('../browser/types/api').components['schemas']} Schemas */
/** @typedef {Schemas['FurnitureKind']} Kind */
/** @typedef {Schemas['EstimateRequest']} Request */
/** @typedef {Schemas['EstimateAnswer']} Answer */
/** @typedef {Schemas['Fault']} Fault */
/** @typedef {{cloth: Schemas['Cloth'], price?: Schemas['Price']}} ShopCloth */
/** @typedef {'plain' | 'small' | 'medium' | 'large'} Pattern */

/**
 * What the element says, in its languages.
 * @type {Record<string, Record<string, string>>}
 */
const words = {
  en: {
    name: 'Estimate for upholstery', piece: 'Piece', choose: 'Choose a piece', count: 'How many alike',
    size: 'How large does it look?', small: 'small', usual: 'usual', large: 'large',
    cloth: 'Cloth', open: 'not chosen yet', pattern: 'How patterned is the cloth to be?',
    plain: 'plain', patternSmall: 'small pattern', patternMedium: 'medium', patternLarge: 'large pattern',
    priceM: 'What the cloth may cost a metre', priceYd: 'What the cloth may cost a yard', from: 'from', to: 'to',
    style: 'Style', measures: 'Measures you have taken', units: 'Units', cm: 'centimetres', in: 'inches',
    measuresHint: 'Leave out what you have not measured. Each measure makes the estimate closer.', typical: 'usually {x}',
    length: 'Cloth', hours: 'Work', price: 'Price', low: 'low', likely: 'likely', high: 'high',
    summary: 'Likely {x} of cloth, between {low} and {high}.', summaryPrice: 'Likely {x}, between {low} and {high}.',
    narrow: 'What would help most:', measure: 'Measure: {x}', chooseCloth: 'Choose the cloth',
    begin: 'Choose a piece, and the estimate appears here.', wait: 'Working it out…',
    look: 'Please look again at: {x}.', none: 'No cloth plan was found for this. Please ask the workroom.',
    note: 'An estimate and no quotation: the workroom still measures the piece. Fire rules may limit which cloths and fillings can be supplied.',
    notes: 'Not in these figures, and what was taken:',
    'estimate-without-lining': 'Lining, for what is not seen, is not included.',
    'estimate-without-second-cloth': 'The second cloth, for the outside panels, is not included.',
    'estimate-without-piping': 'Piping, with its cloth and its cord, is not included.',
    'estimate-without-buttons': 'Buttons, and the cloth that deep buttoning takes besides, are not included.',
    'estimate-without-fillings': 'Fillings, webbing, springs and sundries are not included.',
    'estimate-cloth-unpriced': 'What the cloth costs is not included.', 'estimate-work-unpriced': 'What the work costs is not included.',
    'estimate-without-tax': 'Tax is not included.',
    'estimate-measures-usual': 'Measures that you have not taken are as usual for the size: {measures}.',
    'estimate-cloth-usual': 'No cloth is chosen: a usual one is taken.',
    'estimate-preset-hours': 'Hours are those of an example; every workroom has its own.',
    send: 'Send to the workroom', sending: 'Sending…', sent: 'Sent to the workroom.',
    unsent: 'This could not be sent. Please try again, or ask the workroom directly.',
    fail: 'The estimate cannot be had just now. Please try again, or ask the workroom directly.',
    busy: 'The service is busy. Trying again in {x} s…', again: 'Try again',
    badLength: 'Please give a length, for example {x}.', badRange: 'Please give a length from {low} to {high}.',
    badCount: 'Please give a whole number from 1 to 50.', badPrice: 'Please give an amount, for example {x}.',
    badBand: 'The upper price lies below the lower one.', badCloth: 'This piece cannot be cut from this cloth.', bad: 'This cannot be used.',
  },
  de: {
    name: 'Kostenschätzung für Polsterarbeiten', piece: 'Möbel', choose: 'Möbel wählen', count: 'Anzahl gleicher Stücke',
    size: 'Wie groß wirkt es?', small: 'klein', usual: 'üblich', large: 'groß',
    cloth: 'Stoff', open: 'noch nicht gewählt', pattern: 'Wie gemustert soll der Stoff sein?',
    plain: 'einfarbig', patternSmall: 'kleines Muster', patternMedium: 'mittleres', patternLarge: 'großes Muster',
    priceM: 'Was der Stoff je Meter kosten darf', priceYd: 'Was der Stoff je Yard kosten darf', from: 'von', to: 'bis',
    style: 'Ausführung', measures: 'Maße, die Sie genommen haben', units: 'Einheiten', cm: 'Zentimeter', in: 'Zoll',
    measuresHint: 'Lassen Sie weg, was nicht gemessen ist. Jedes Maß macht die Schätzung genauer.', typical: 'meist {x}',
    length: 'Stoff', hours: 'Arbeit', price: 'Preis', low: 'mindestens', likely: 'voraussichtlich', high: 'höchstens',
    summary: 'Voraussichtlich {x} Stoff, zwischen {low} und {high}.', summaryPrice: 'Voraussichtlich {x}, zwischen {low} und {high}.',
    narrow: 'Was am meisten hilft:', measure: 'Messen: {x}', chooseCloth: 'Den Stoff wählen',
    begin: 'Wählen Sie ein Möbel, dann erscheint hier die Schätzung.', wait: 'Wird berechnet…',
    look: 'Bitte prüfen Sie: {x}.', none: 'Dafür wurde kein Schnittplan gefunden. Bitte fragen Sie die Werkstatt.',
    note: 'Eine Schätzung, kein Angebot: Die Werkstatt misst das Möbel noch aus. Brandschutzregeln können Stoffe und Füllungen einschränken.',
    notes: 'Nicht enthalten, und was angenommen ist:',
    'estimate-without-lining': 'Futterstoff für das, was man nicht sieht, ist nicht enthalten.',
    'estimate-without-second-cloth': 'Der zweite Stoff für die Außenteile ist nicht enthalten.',
    'estimate-without-piping': 'Keder, mit Stoff und Schnur, ist nicht enthalten.',
    'estimate-without-buttons': 'Knöpfe, und der Stoff, den tiefes Knöpfen zusätzlich braucht, sind nicht enthalten.',
    'estimate-without-fillings': 'Füllungen, Gurte, Federn und Kleinmaterial sind nicht enthalten.',
    'estimate-cloth-unpriced': 'Was der Stoff kostet, ist nicht enthalten.', 'estimate-work-unpriced': 'Was die Arbeit kostet, ist nicht enthalten.',
    'estimate-without-tax': 'Steuer ist nicht enthalten.',
    'estimate-measures-usual': 'Maße, die Sie nicht genommen haben, sind für die Größe üblich: {measures}.',
    'estimate-cloth-usual': 'Es ist kein Stoff gewählt: Ein üblicher ist angenommen.',
    'estimate-preset-hours': 'Die Stunden sind die eines Beispiels; jede Werkstatt hat ihre eigenen.',
    send: 'An die Werkstatt senden', sending: 'Wird gesendet…', sent: 'An die Werkstatt gesendet.',
    unsent: 'Das konnte nicht gesendet werden. Bitte versuchen Sie es noch einmal oder fragen Sie die Werkstatt direkt.',
    fail: 'Die Schätzung ist gerade nicht zu haben. Bitte versuchen Sie es noch einmal oder fragen Sie die Werkstatt direkt.',
    busy: 'Der Dienst ist ausgelastet. Neuer Versuch in {x} s…', again: 'Noch einmal versuchen',
    badLength: 'Bitte geben Sie eine Länge an, zum Beispiel {x}.', badRange: 'Bitte geben Sie eine Länge von {low} bis {high} an.',
    badCount: 'Bitte geben Sie eine ganze Zahl von 1 bis 50 an.', badPrice: 'Bitte geben Sie einen Betrag an, zum Beispiel {x}.',
    badBand: 'Der obere Preis liegt unter dem unteren.', badCloth: 'Aus diesem Stoff lässt sich das Möbel nicht zuschneiden.', bad: 'Das lässt sich nicht verwenden.',
  },
  fr: {
    name: 'Estimation pour travaux de tapisserie', piece: 'Meuble', choose: 'Choisir un meuble', count: 'Nombre de pièces identiques',
    size: 'Quelle taille semble-t-il avoir ?', small: 'petit', usual: 'courant', large: 'grand',
    cloth: 'Tissu', open: 'pas encore choisi', pattern: 'Quel motif pour le tissu ?',
    plain: 'uni', patternSmall: 'petit motif', patternMedium: 'moyen', patternLarge: 'grand motif',
    priceM: 'Prix envisagé du tissu au mètre', priceYd: 'Prix envisagé du tissu au yard', from: 'de', to: 'à',
    style: 'Façon', measures: 'Mesures que vous avez prises', units: 'Unités', cm: 'centimètres', in: 'pouces',
    measuresHint: 'Laissez vide ce que vous n’avez pas mesuré. Chaque mesure précise l’estimation.', typical: 'souvent {x}',
    length: 'Tissu', hours: 'Travail', price: 'Prix', low: 'au moins', likely: 'probable', high: 'au plus',
    summary: 'Probablement {x} de tissu, entre {low} et {high}.', summaryPrice: 'Probablement {x}, entre {low} et {high}.',
    narrow: 'Ce qui aiderait le plus :', measure: 'Mesurer : {x}', chooseCloth: 'Choisir le tissu',
    begin: 'Choisissez un meuble et l’estimation apparaîtra ici.', wait: 'Calcul en cours…',
    look: 'Veuillez revoir : {x}.', none: 'Aucun plan de coupe n’a été trouvé. Veuillez demander à l’atelier.',
    note: 'Une estimation et non un devis : l’atelier doit encore mesurer le meuble. Les règles de sécurité incendie peuvent limiter les tissus et les garnitures.',
    notes: 'Non compris, et ce qui est supposé :',
    'estimate-without-lining': 'La doublure de ce qui ne se voit pas n’est pas comprise.',
    'estimate-without-second-cloth': 'Le second tissu, pour les parties extérieures, n’est pas compris.',
    'estimate-without-piping': 'Le passepoil, avec son tissu et son cordon, n’est pas compris.',
    'estimate-without-buttons': 'Les boutons, et le tissu que le capitonnage prend en plus, ne sont pas compris.',
    'estimate-without-fillings': 'Garnitures, sangles, ressorts et fournitures ne sont pas compris.',
    'estimate-cloth-unpriced': 'Le coût du tissu n’est pas compris.', 'estimate-work-unpriced': 'Le coût du travail n’est pas compris.',
    'estimate-without-tax': 'La taxe n’est pas comprise.',
    'estimate-measures-usual': 'Les mesures que vous n’avez pas prises sont courantes pour cette taille : {measures}.',
    'estimate-cloth-usual': 'Aucun tissu n’est choisi : un tissu courant est supposé.',
    'estimate-preset-hours': 'Les heures sont celles d’un exemple ; chaque atelier a les siennes.',
    send: 'Envoyer à l’atelier', sending: 'Envoi en cours…', sent: 'Envoyé à l’atelier.',
    unsent: 'L’envoi a échoué. Veuillez réessayer ou demander directement à l’atelier.',
    fail: 'L’estimation n’est pas disponible pour le moment. Veuillez réessayer ou demander directement à l’atelier.',
    busy: 'Le service est occupé. Nouvel essai dans {x} s…', again: 'Réessayer',
    badLength: 'Veuillez indiquer une longueur, par exemple {x}.', badRange: 'Veuillez indiquer une longueur de {low} à {high}.',
    badCount: 'Veuillez indiquer un nombre entier de 1 à 50.', badPrice: 'Veuillez indiquer un montant, par exemple {x}.',
    badBand: 'Le prix supérieur est plus bas que le prix inférieur.', badCloth: 'Ce meuble ne peut pas être coupé dans ce tissu.', bad: 'Cela ne peut pas être utilisé.',
  },
};

// The names that the service gives in English, in German and French; for a
// measure also where the tape goes.
const names = `
drop-in seat|Einlegesitz|assise amovible
stuff-over dining chair|gepolsterter Stuhl|chaise garnie
carver|Armlehnstuhl|chaise à accoudoirs
bar stool|Barhocker|tabouret de bar
piano stool|Klavierhocker|tabouret de piano
low slipper chair|niedriger Sessel ohne Armlehnen|chauffeuse
tub chair|Tonnensessel|fauteuil tonneau
wing chair|Ohrensessel|fauteuil à oreilles
club armchair|Clubsessel|fauteuil club
fireside chair|Kaminsessel|fauteuil de coin du feu
two-seat settee|Zweisitzer|canapé deux places
three-seat settee|Dreisitzer|canapé trois places
L-shaped settee|Ecksofa|canapé d’angle
chaise|Chaiselongue|méridienne
footstool or ottoman|Fußbank oder Polsterhocker|repose-pieds ou pouf
headboard|Kopfteil|tête de lit
window-seat or bench cushion|Kissen für Fensterbank oder Bank|coussin de banc ou de fenêtre
banquette|Polsterbank|banquette
arm thickness|Dicke der Armlehne|épaisseur de l’accoudoir|Quer über die Vorderseite der Armlehne, wo sie am breitesten ist.|En travers du devant de l’accoudoir, au plus large.
back width|Rückenbreite|largeur du dossier|Quer über den Innenrücken an der breitesten Stelle, zwischen Armlehnen oder Ohren; sonst von Kante zu Kante.|En travers du dossier intérieur au plus large, entre accoudoirs ou oreilles ; sinon d’un bord à l’autre.
wing width|Breite des Ohrs|largeur de l’oreille|Nur mit Ohren: quer über das Ohr an der breitesten Stelle, von hinten bis zur Vorderkante.|Seulement avec des oreilles : en travers de l’oreille au plus large, de l’arrière au bord avant.
outside width|Außenbreite|largeur extérieure|Quer über den Außenrücken an der breitesten Stelle.|En travers du dossier extérieur, au plus large.
seat width|Sitzbreite|largeur de l’assise|Quer über den Sitz an der breitesten Stelle, zwischen den Armlehnen; sonst von Kante zu Kante.|En travers de l’assise au plus large, entre accoudoirs ; sinon d’un bord à l’autre.
return width|Breite des kurzen Schenkels|largeur du retour|Quer über den Sitz des kürzeren Schenkels, vom Ecksitz bis zur Armlehne.|En travers du petit côté, de l’angle à son accoudoir.
seat length|Sitzlänge|longueur de l’assise|Mitten auf dem Sitz, vom Fuß des Kopfendes bis zum Ende.|Au milieu de l’assise, du pied du chevet au bout.
outside arm length|Länge der Armlehne außen|longueur extérieure de l’accoudoir|Außen an der Armlehne, von vorn bis zur Kante des Außenrückens.|Le long du dehors de l’accoudoir, de l’avant au bord du dossier extérieur.
arm pad length|Länge der Armauflage|longueur de la manchette|Längs über die Auflage auf der Armlehne.|Le long de la manchette sur l’accoudoir.
side length|Seitenlänge|longueur du côté|Längs der Seite, von der Vorderkante bis hinten außen.|Le long du côté, du bord avant à l’arrière.
arm length|Länge der Armlehne|longueur de l’accoudoir|Oben auf der Armlehne, vom Innenrücken bis vorn.|Sur l’accoudoir, du dossier intérieur à l’avant.
arm front height|Höhe der Armlehnenfront|hauteur du devant d’accoudoir|Vorn an der Armlehne, von oben bis unter die Zarge.|Sur le devant de l’accoudoir, du haut au dessous de la ceinture.
seat depth|Sitztiefe|profondeur de l’assise|Mitten auf dem Sitz, vom Fuß des Rückens bis zur Vorderkante, über die Polsterung.|Au milieu de l’assise, du pied du dossier au bord avant, sur la garniture.
outside height|Außenhöhe|hauteur extérieure|Am Außenrücken von der Oberkante bis unter die Zarge.|Sur le dossier extérieur, du bord supérieur au dessous de la ceinture.
board and pad|Brett und Polster|panneau et garniture|Von der Polstervorderseite über die Kante bis zur Rückseite des Bretts.|Du devant de la garniture, par le bord, au dos du panneau.
skirt height|Höhe des Volants|hauteur de la jupe|Nur mit Volant: von der Zarge bis fingerbreit über dem Boden.|Seulement avec une jupe : de la ceinture à un doigt du sol.
arm rise|Höhe der Armlehne innen|montée de l’accoudoir|Vom Sitz, bei losem Kissen von der Fläche darunter, innen hoch und darüber, bis die Außenseite beginnt; bei geraden Armlehnen bis zur Naht.|De l’assise, ou du dessous d’un coussin libre, par l’intérieur et le dessus jusqu’au début de l’extérieur ; accoudoir droit : jusqu’à la couture.
inside height|Innenhöhe|hauteur intérieure|Vom Sitz mitten an der Innenseite hoch bis über die Oberkante.|De l’assise, au milieu de l’intérieur, jusque par-dessus le bord.
rise|Fronthöhe|hauteur de la ceinture|Von der Oberkante bis unter die Zarge.|Du bord supérieur au dessous de la ceinture.
seat rise|Höhe der Sitzfront|hauteur du devant d’assise|Von der Sitzoberkante vorn hinab bis unter die Zarge.|Du bord de l’assise, devant, au dessous de la ceinture.
height|Höhe|hauteur|Von der Oberkante bis dahin, wo die Matratze es verdeckt.|Du bord supérieur jusqu’où le matelas le cache.
wing height|Höhe des Ohrs|hauteur de l’oreille|Nur mit Ohren: von der Armlehne am Ohr hoch bis zum höchsten Punkt.|Seulement avec des oreilles : du dessus de l’accoudoir au point le plus haut.
pad thickness|Polsterdicke|épaisseur de la garniture|Von oben auf dem Polster über die Kante bis zum Holz.|Du dessus de la garniture, par le bord, jusqu’au bois.
outside arm height|Höhe der Armlehne außen|hauteur extérieure de l’accoudoir|Vom Beginn der Außenseite bis unter die Zarge.|Du début du dehors de l’accoudoir au dessous de la ceinture.
arm pad width|Breite der Armauflage|largeur de la manchette|Über die Auflage, von Holz zu Holz.|Sur la manchette, d’un bois à l’autre.
inside curve|Innenbogen|courbe intérieure|Innen herum von Armfront zu Armfront, an der längsten Stelle.|Autour de l’intérieur d’un devant d’accoudoir à l’autre, au plus long.
outside curve|Außenbogen|courbe extérieure|Außen herum von Armfront zu Armfront.|Autour de l’extérieur d’un devant d’accoudoir à l’autre.
cushion thickness|Kissendicke|épaisseur du coussin|Die Höhe des Kissenrands von Naht zu Naht.|La hauteur de la plate-bande du coussin, d’une couture à l’autre.
head height|Höhe des Kopfendes|hauteur du chevet|Mitten am Kopfende hoch, vom Sitz über die Polsterung bis zur Oberkante.|Au milieu du chevet, de l’assise au bord supérieur, sur la garniture.
back height|Rückenhöhe|hauteur du dossier|Mitten am Innenrücken hoch, vom Sitz, bei losem Kissen von der Fläche darunter, bis zur Oberkante.|Au milieu du dossier intérieur, de l’assise, ou du dessous d’un coussin libre, au bord supérieur.
arm pads|Armauflagen|manchettes
arms|Armlehnen|accoudoirs
back|Rücken|dossier
flies|verdeckte Ansätze|rallonges cachées
front|Vorderseite|face
inside back|Innenrücken|dossier intérieur
outside panels|Außenteile|parties extérieures
piping|Keder|passepoil
seat|Sitz|assise
skirt|Volant|jupe
top|Oberseite|dessus
on cushions, facings and outside edges|an Kissen, Fronten und Außenkanten|sur coussins, devants et bords extérieurs
box pleats all round|Kellerfalten ringsum|plis creux tout autour
deep-buttoned in diamonds|tief geknöpft in Rauten|capitonné en losanges
a loose cushion|ein loses Kissen|un coussin libre
on the cushions|an den Kissen|sur les coussins
with loose cushions|mit losen Kissen|à coussins libres
upholstered tight|fest gepolstert|garni fixe
plain wood|blankes Holz|bois nu
top cover throughout|Bezugsstoff überall|tissu partout
none|ohne|sans
open, show-wood|offen, mit sichtbarem Holz|ajouré, bois apparent
in another cloth|aus anderem Stoff|dans un autre tissu
upholstered, inside and outside|gepolstert, innen und außen|garni, dedans et dehors
plain|glatt|uni
round|rund|rond
in the same cloth|aus demselben Stoff|dans le même tissu
scroll arms with facings|Rollarmlehnen mit Front|accoudoirs à volute
rectangular|rechteckig|rectangulaire
square arms with a front border|gerade Armlehnen mit Frontstreifen|accoudoirs droits à bande avant
square|quadratisch|carré
hidden strips of lining where nothing shows|Futterstreifen, wo nichts zu sehen ist|bandes de doublure là où rien ne se voit
with pads|mit Auflagen|avec manchettes
a lip of the cover at the front and lining behind it|vorn ein Streifen Bezugsstoff, dahinter Futter|une bande de tissu devant, doublure derrière
a top and borders|Oberseite und Seitenstreifen|dessus et plates-bandes
boxed, with borders|mit Seitenstreifen|à plates-bandes
bull-nosed, round the front in one; cushions at the back boxed|vorn rund in einem Stück; Rückenkissen mit Seitenstreifen|devant arrondi d’une pièce ; coussins de dossier à plates-bandes
collars sewn in round the arms|Kragen um die Armlehnen angesetzt|collets cousus autour des accoudoirs
cut in to pass the arms|um die Armlehnen eingeschnitten|entaillé autour des accoudoirs
gathered|gekräuselt|froncée
in one piece over the edge|in einem Stück über die Kante|d’une pièce par-dessus le bord
knife pleats all round|Messerfalten ringsum|plis plats tout autour
knife-edged, without borders|ohne Seitenstreifen|sans plates-bandes
lined to the edge|bis zur Kante gefüttert|doublée jusqu’au bord
of the cover folded double|aus doppelt gelegtem Bezugsstoff|en tissu plié double
edge|Kante|bord
back edge|Rückenkante|bord du dossier|Um die Kante des Rückens, von dort, wo der Innenrücken zuletzt zu sehen ist, bis dahin, wo der Bezug dahinter geheftet wird.|Autour du bord du dossier, d’où l’on voit l’intérieur pour la dernière fois jusqu’où le tissu est fixé derrière.
seat edge|Sitzkante|bord de l’assise|Unter losem Kissen: von der Vorderkante oben hinab bis zur Naht des Frontstreifens.|Sous un coussin libre : du haut du bord avant à la couture de la bande avant.
middle curve|mittlerer Bogen|courbe du milieu|Nur bei drei Teilen: innen an der Oberkante von Biegung zu Biegung.|En trois parties seulement : le long du bord intérieur, d’un coude à l’autre.
outside middle|Mitte außen|milieu extérieur|Nur bei drei Teilen: um den Außenrücken von Biegung zu Biegung.|En trois parties seulement : autour du dossier extérieur, d’un coude à l’autre.
arm curve|Armbogen|courbe de l’accoudoir|Nur bei drei Teilen: innen an der Oberkante von der Armfront bis zur Biegung.|En trois parties seulement : du devant de l’accoudoir, par le bord intérieur, au coude.
outside arm curve|Armbogen außen|courbe extérieure de l’accoudoir|Nur bei drei Teilen: außen von der Armfront bis zur Biegung.|En trois parties seulement : du devant de l’accoudoir, par l’extérieur, au coude.
arm front edge|Vorderkante der Armlehne|bord avant de l’accoudoir|Um die Vorderkante der Innenarmlehne bis dahin, wo der Bezug unter der Front geheftet wird.|Autour du bord avant de l’intérieur d’accoudoir jusqu’où le tissu est fixé sous le devant.
cushion width|Kissenbreite|largeur du coussin|Wo sie kein gleicher Teil des Sitzes ist: quer über ein Sitzkissen, ohne Ohren.|S’il n’est pas une part égale de l’assise : en travers d’un coussin, sans oreilles.
cushion depth|Kissentiefe|profondeur du coussin|Wo sie nicht die des Sitzes ist: mitten über ein Sitzkissen von hinten nach vorn.|Si ce n’est pas celle de l’assise : au milieu d’un coussin, de l’arrière à l’avant.
border width|Breite des Frontstreifens|largeur de la bande avant|Wo sie nicht die des Sitzes ist: entlang des Frontstreifens von Ende zu Ende.|Si ce n’est pas celle de l’assise : le long de la bande avant, d’un bout à l’autre.
wing roll|Ohrwulst|bourrelet de l’oreille|Von der Vorderkante des Ohrs um die Rundung bis dahin, wo der Bezug außen geheftet wird.|Du bord avant de l’oreille, autour du bourrelet, jusqu’où le tissu est fixé dehors.
outer wing width|Ohrbreite außen|largeur extérieure de l’oreille|An der breitesten Stelle des Ohrs außen, von vorn bis zur Kante des Außenrückens.|Au plus large du dehors de l’oreille, de l’avant au bord du dossier extérieur.
outer wing height|Ohrhöhe außen|hauteur extérieure de l’oreille|An der höchsten Stelle des Ohrs außen, von oben bis zur Außenarmlehne.|Au plus haut du dehors de l’oreille, du haut à l’extérieur de l’accoudoir.
ear width|Breite der Kissenecke|largeur de l’avancée|Nur bei T- oder L-Kissen: von der Seite der Armlehne nach außen bis zum Ende der Ecke.|Coussin en T ou en L seulement : du côté de l’accoudoir vers l’extérieur, au bout de l’avancée.
ear depth|Tiefe der Kissenecke|profondeur de l’avancée|Nur bei T- oder L-Kissen: von der Kissenfront zurück bis zur Armlehne.|Coussin en T ou en L seulement : du devant du coussin vers l’arrière, jusqu’à l’accoudoir.
top width|Breite oben|largeur du haut|Nur wenn der Rücken die Armlehnen überragt: darüber quer über den Innenrücken von Kante zu Kante.|Si le dossier dépasse les accoudoirs seulement : au-dessus d’eux, en travers, d’un bord à l’autre.
long back length|Länge des langen Rückens|longueur du long dossier|Nur mit Rücken an einer Seite: daran entlang vom Kopfende bis zu seinem Ende.|Avec un dossier d’un côté seulement : le long de celui-ci, du chevet à son bout.
long back height|Höhe des langen Rückens|hauteur du long dossier|Nur mit Rücken an einer Seite: vom Sitz hoch bis zur Naht unter seiner Rolle.|Avec un dossier d’un côté seulement : de l’assise à la couture sous le rouleau.
roll|Rolle|rouleau|Nur mit Rücken an einer Seite: von der Naht über die Rolle bis dahin, wo der Bezug außen geheftet wird.|Avec un dossier d’un côté seulement : de la couture, par le rouleau, jusqu’où le tissu est fixé dehors.
outer long back|langer Rücken außen|long dossier extérieur|Nur mit Rücken an einer Seite: von unter der Rolle hinab bis unter die Zarge.|Avec un dossier d’un côté seulement : du dessous du rouleau au dessous de la ceinture.
roll front|Rollenfront|devant du rouleau|Nur mit Rücken an einer Seite: quer über die runde Front der Rolle.|Avec un dossier d’un côté seulement : en travers du devant rond du rouleau.
head front|Front des Kopfendes|devant du chevet|Nur mit Fronten am Kopfende: quer über die Front der Schnecke an der breitesten Stelle.|Avec des devants au chevet seulement : en travers du devant de la volute, au plus large.
scroll joint|Schneckenstoß|joint des volutes|In der Innenecke: vom Beginn der Schnecke über dem Knick bis dahin, wo sich die Schnecken von Rücken und Arm treffen.|Dans l’angle : d’où commence la volute, au-dessus du pli, jusqu’où se rejoignent celles du dossier et du bras.
corner width|Eckenbreite|largeur du coin|Hinten entlang, von dort, wo die Ecke wäre, bis zum Beginn des Schnitts.|Le long de l’arrière, d’où serait le coin jusqu’au début de la coupe.
corner depth|Eckentiefe|profondeur du coin|An der Seite entlang, von dort, wo die Ecke wäre, bis zum Beginn des Schnitts.|Le long du côté, d’où serait le coin jusqu’au début de la coupe.
depth|Tiefe|profondeur|Über die Oberseite von hinten nach vorn; bei runden gleich der Breite.|Sur le dessus, de l’arrière à l’avant ; rond, égale à la largeur.
foot of the back|Fuß des Rückens|pied du dossier
stands clear of the seat|steht frei über dem Sitz|dégagé de l’assise
comes down to the seat|reicht bis auf den Sitz|descend jusqu’à l’assise
borders of the seat|Streifen am Sitz|bandes de l’assise
at the front and the sides|vorn und an den Seiten|devant et sur les côtés
none: the seat runs down over its edges in one|ohne: der Sitz läuft in einem über die Kanten|sans : l’assise descend d’une pièce par-dessus ses bords
undersides of loose cushions|Unterseiten loser Kissen|dessous des coussins libres
plain, of the same cloth|schlicht, aus demselben Stoff|simple, du même tissu
with the motif too, so that they can be turned|auch mit Motiv, zum Wenden|avec le motif aussi, réversible
inside and outside|innen und außen|intérieur et extérieur
each in one|je in einem Stück|chacun d’une pièce
each in three, sewn at the bends|je in drei Teilen, an den Biegungen genäht|chacun en trois, cousus aux coudes
fronts of the arms|Armfronten|devants des accoudoirs
with facings|mit Fronten|avec des plaques
covered round|rundum bezogen|recouverts autour
facings of the arms|Front der Armlehnen|plaques des accoudoirs
stuffed|gepolstert|garnies
on a board|auf einem Brett|sur une planche
shape of the seat cushions|Form der Sitzkissen|forme des coussins d’assise
T: with ears in front of both arms|T: mit Ecken vor beiden Armlehnen|T : avancées devant les deux accoudoirs
L: with an ear in front of the left arm|L: mit einer Ecke vor der linken Armlehne|L : avancée devant l’accoudoir gauche
back above the arms|Rücken über den Armlehnen|dossier au-dessus des accoudoirs
rises above them, covered over both its edges|überragt sie, über beide Kanten bezogen|les dépasse, recouvert sur ses deux bords
ends at their height|endet auf ihrer Höhe|finit à leur hauteur
small chair with low arms|kleiner Sessel mit niedrigen Armlehnen|petit fauteuil à accoudoirs bas
show-wood chair|Sessel mit sichtbarem Holz|fauteuil à bois apparent
open|offen|ouvert
chair covered in one|Stuhl in einem bezogen|chaise garnie d’une pièce
back along one side|Rücken an einer Seite|dossier d’un côté
a low back that ends in a roll|niedriger Rücken mit Rolle|dossier bas à rouleau
sides of the head|Seiten des Kopfendes|côtés du chevet
with facings at its scroll|mit Fronten an der Schnecke|avec des devants à la volute
chesterfield chair|Chesterfieldsessel|fauteuil chesterfield
back and arms|Rücken und Armlehnen|dossier et accoudoirs
chesterfield settee|Chesterfieldsofa|canapé chesterfield
seat cushions|Sitzkissen|coussins d’assise
two|zwei|deux
three|drei|trois
one across the whole seat|eines über den ganzen Sitz|un seul sur toute l’assise
window-seat cushion with cut corners|Fensterbankkissen mit schrägen Ecken|coussin de fenêtre à coins coupés
pouffe|Pouf|pouf
shape|Form|forme
base|Boden|dessous
of lining|aus Futter|en doublure
of the cover|aus Bezugsstoff|en tissu
front of the seat|Vorderseite des Sitzes|devant de l’assise
where the back meets the arms|wo der Rücken auf die Armlehnen trifft|jonction du dossier et des accoudoirs
make of the cushions|Machart der Kissen|façon des coussins
beneath the loose cushions|unter den losen Kissen|sous les coussins libres
make of the skirt|Machart des Volants|façon de la jupe
wings|Ohren|oreilles
round the front and the wings|rund um Front und Ohren|autour du devant et des oreilles
straight, with a piece behind the slit at each corner|gerade, mit einem Stück hinter dem Schlitz an jeder Ecke|droite, une pièce derrière la fente de chaque coin
straight, with an inverted pleat at each corner|gerade, mit einer Kellerfalte an jeder Ecke|droite, un pli creux à chaque coin
the cover throughout|Bezugsstoff überall|tissu partout
the seat runs down over the front in one|der Sitz läuft in einem Stück über die Front|l’assise descend devant d’une seule pièce
turned up in a hem|mit umgeschlagenem Saum|avec un ourlet
upholstered, deep-buttoned in diamonds|gepolstert, tief geknöpft in Rauten|garni, capitonné en losanges
with a border at the top and sides|mit Streifen oben und an den Seiten|à bande en haut et sur les côtés
with a front border|mit Frontstreifen|à bande avant
with a padded wing at each side|mit gepolstertem Ohr an jeder Seite|avec une oreille garnie de chaque côté
with wings above the arms|mit Ohren über den Armlehnen|avec des oreilles au-dessus des accoudoirs
`.trim().split('\n').map((row) => row.split('|'));

const css = `
:host { display: block; container-type: inline-size; line-height: 1.45; text-align: start;
  --_accent: var(--bridletie-accent, light-dark(#0f5a55, #86d3c8)); --_on: var(--bridletie-on-accent, light-dark(#fff, #0b1f1d));
  --_bad: var(--bridletie-error, light-dark(#a3211c, #ffb3a6)); --_line: var(--bridletie-line, light-dark(#6f7a79, #93a09e));
  --_paper: var(--bridletie-paper, light-dark(#fff, #16201f)); --_ink: var(--bridletie-ink, light-dark(#1a2625, #e8efed));
  --_quiet: var(--bridletie-quiet, light-dark(#4d5a58, #b3c0bd)); --_tint: var(--bridletie-tint, light-dark(#e7f0ee, #22312f));
  --_round: var(--bridletie-radius, 6px); --_gap: var(--bridletie-gap, 1.1em); font-family: var(--bridletie-font, inherit); }
:host([hidden]), [hidden] { display: none !important; }
*, ::before, ::after { box-sizing: border-box; }
section { display: grid; gap: var(--_gap); padding: var(--bridletie-padding, 1.2em); color: var(--_ink); background: var(--_paper);
  border: 1px solid var(--_line); border-radius: calc(var(--_round) * 2); }
.fields, .result { display: grid; gap: var(--_gap); align-content: start; min-width: 0; }
@container (min-width: 46em) { section { grid-template-columns: 1.15fr 1fr; column-gap: 2.2em; } .result { align-self: start; position: sticky; top: 1em; } }
@container (max-width: 45.99em) { .result { display: contents; } #status { position: sticky; bottom: 0; z-index: 1; margin-inline: -.6em; padding: .6em; background: var(--_paper); border-block-start: 2px solid var(--_accent); }
  :focus { scroll-margin-block: 1em 6em; } }
.pair, .grid { display: grid; gap: .9em var(--_gap); }
@container (min-width: 24em) { .pair { grid-template-columns: 1fr 1fr; } .wide { grid-template-columns: 2fr 1fr; } }
@container (min-width: 32em) { .grid { grid-template-columns: 1fr 1fr; } }
.field { display: grid; gap: .3em; align-content: start; min-width: 0; }
fieldset { border: 0; margin: 0; padding: 0; min-width: 0; }
label, legend { font-weight: 600; padding: 0; }
legend { margin-block-end: .3em; }
.hint, .note { color: var(--_quiet); font-size: .875em; margin: 0; }
.note p, .note ul { margin: 0; } .note ul { padding-inline-start: 1.2em; }
input, select, button { font: inherit; color: inherit; min-height: 44px; border-radius: var(--_round); max-width: 100%; }
input:not([type=radio]), select { width: 100%; min-width: 0; padding: .45em .7em; background: var(--_paper); border: 1px solid var(--_line); }
[aria-invalid=true] { border: 2px solid var(--_bad) !important; }
.error { color: var(--_bad); font-weight: 600; font-size: .92em; }
.error:empty { display: none; }
:focus-visible { outline: 3px solid var(--_accent); outline-offset: 2px; }
.unit { display: grid; grid-template-columns: 1fr auto; align-items: center; gap: .5em; }
.choices { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(7.5em, 100%), 1fr)); gap: .4em; }
.choices:has(.swatch) { grid-template-columns: repeat(auto-fit, minmax(min(11em, 100%), 1fr)); }
.choice { position: relative; display: flex; align-items: center; gap: .5em; flex: 1 1 auto; min-height: 44px; padding: .3em .8em;
  font-weight: 400; border: 1px solid var(--_line); border-radius: var(--_round); cursor: pointer; }
.choice input { min-height: 0; width: 1.15em; height: 1.15em; margin: 0; flex: none; accent-color: var(--_accent); }
.choice:has(:checked) { border-color: var(--_accent); box-shadow: inset 0 0 0 1px var(--_accent); background: var(--_tint); }
.swatch { inline-size: 1.9em; block-size: 1.9em; border-radius: 3px; border: 1px solid var(--_line); margin-inline-start: auto; background: var(--_tint) var(--dots, none); }
.small { --dots: radial-gradient(circle at 50% 50%, var(--_accent) 1.4px, transparent 2px) 0 0 / 6px 6px; }
.medium { --dots: radial-gradient(circle at 50% 50%, var(--_accent) 3px, transparent 3.6px) 0 0 / 12px 12px; }
.large { --dots: radial-gradient(circle at 50% 50%, var(--_accent) 7px, transparent 7.6px) 0 0 / 28px 28px; }
details { border-block-start: 1px solid var(--_line); padding-block-start: .3em; }
summary { min-height: 44px; display: flex; align-items: center; gap: .6em; font-weight: 600; cursor: pointer; list-style: none; }
summary::-webkit-details-marker { display: none; }
summary::before { content: ''; width: .55em; height: .55em; border: solid currentColor; border-width: 0 2px 2px 0; transform: rotate(-45deg); flex: none; }
[open] > summary::before { transform: rotate(45deg); }
details > * + * { margin-block: .6em .4em; }
figure { margin: 0; padding: .8em; background: var(--_tint); border-radius: var(--_round); }
svg { display: block; width: 100%; height: auto; max-height: 15em; }
.f { fill: var(--_paper); rx: 14px; } .c { rx: 14px; } .l { fill: none; stroke: var(--_ink); stroke-width: 5; rx: 14px; } .leg { fill: none; stroke: var(--_line); stroke-width: 4; }
.floor { stroke: var(--_line); stroke-width: 3; } .motif { fill: var(--_accent); opacity: .6; }
.m { visibility: hidden; } .measuring .m { visibility: visible; } .pointing .m { opacity: .2; } .pointing .m.on { opacity: 1; }
.m path { stroke: var(--_accent); stroke-width: 4; } .m circle { fill: var(--_paper); stroke: var(--_accent); stroke-width: 3; }
.m.on circle { fill: var(--_accent); } .m text { fill: var(--_ink); font-weight: 700; } .m.on text { fill: var(--_on); }
.summary { margin: 0; font-weight: 600; min-height: 1.45em; }
.ranges { display: grid; gap: var(--_gap); transition: opacity .2s; }
.stale { opacity: .55; }
.range { display: grid; gap: .15em; }
.what { font-weight: 600; }
dl { display: grid; grid-template-columns: 1fr auto 1fr; align-items: end; gap: .6em; margin: 0; }
dl div:last-child { text-align: end; } dl div:nth-child(2) { text-align: center; }
dt { color: var(--_quiet); font-size: .82em; } dd { margin: 0; font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }
dl div:nth-child(2) dd { font-size: 1.7em; font-weight: 700; line-height: 1.15; }
.tape { position: relative; height: 14px; border-radius: 3px; border: 1px solid var(--_accent); background: var(--_tint); overflow: hidden; }
.tape::before { content: ''; position: absolute; inset: 0; background: repeating-linear-gradient(90deg, var(--_accent) 0 1px, transparent 1px 5%); height: 45%; }
.tape::after { content: ''; position: absolute; inset-block: -1px; inset-inline-start: calc(var(--at, 50%) - 4px); width: 8px; border-radius: 3px; background: var(--_accent); forced-color-adjust: none; }
.narrow { display: grid; gap: .4em; } .narrow p { margin: 0; }
button { padding: .55em 1.1em; border: 1px solid var(--_accent); background: var(--_paper); color: var(--_accent); font-weight: 600; cursor: pointer; }
.send { background: var(--_accent); color: var(--_on); width: 100%; }
button:hover { text-decoration: underline; }
@media (prefers-reduced-motion: reduce) { * { transition: none !important; } }
@media (forced-colors: active) { .swatch { forced-color-adjust: none; --_accent: CanvasText; --_tint: Canvas; border-color: CanvasText; } .choice:has(:checked) { outline: 2px solid Highlight; } .tape::after { background: Highlight; } .f { fill: Canvas; } .l, .leg, .floor { stroke: CanvasText; } .m path, .m circle { stroke: Highlight; } }
`;
const sheet = new CSSStyleSheet();
sheet.replaceSync(css);

const mmPerInch = 25.4;
const mmPerYard = 914.4;

/**
 * An element with its attributes, listeners (onclick: a function) and children.
 * Text stays text.
 * @param {string} tag
 * @param {Record<string, any>} [props]
 * @param {...(Node | string)} children
 * @returns {HTMLElement}
 */
function make(tag, props = {}, ...children) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(props)) {
    if (typeof value === 'function') e.addEventListener(name.slice(2), value);
    else if (value === true) e.setAttribute(name, '');
    else if (value !== false && value !== undefined) e.setAttribute(name, value);
  }
  e.append(...children);
  return e;
}

/**
 * The text as the service reads a number: a comma for decimals becomes a point.
 * @param {string} text
 */
const plainNumber = (text) => text.trim().replace(/^(\d+),(\d+)/, '$1.$2').replace(/[′’]/g, "'").replace(/[″”]/g, '"');

/** How long to wait after a key and after a choice before asking, in ms. */
const settle = { typed: 350, chosen: 60 };

/** The notes that the status and the last paragraph say. */
const saidElsewhere = ['estimate-no-quotation', 'estimate-no-plan', 'fire-rules'];

class Quote extends HTMLElement {
  static observedAttributes = ['endpoint', 'kind', 'kinds', 'currency', 'language', 'units', 'cloths', 'labour', 'tax'];

  /** What it says, for those who check that nothing is left untranslated. */
  static words = words;
  static names = names;

  // What the customer has said. Measures are kept as they are sent, so that
  // changing the units changes no length.
  #state = {
    kind: '', count: '1', size: /** @type {'small' | 'usual' | 'large'} */ ('usual'), pattern: /** @type {Pattern} */ ('medium'),
    cloth: -1, low: '', high: '', per: /** @type {'m' | 'yd'} */ ('m'), units: /** @type {'metric' | 'imperial'} */ ('metric'),
    options: /** @type {Record<string, string>} */ ({}), measures: /** @type {Record<string, string>} */ ({}),
  };
  /** @type {Kind[]} */ #kinds = [];
  /** @type {ShopCloth[]} */ #cloths = [];
  /** @type {Map<string, string>} */ #translated = new Map();
  /** @type {Record<string, string>} */ #t = words.en;
  #locale = 'en';
  #loaded = false;
  #root = this.attachShadow({ mode: 'open' });
  /** @type {AbortController | undefined} */ #asking;
  /** @type {AbortController | undefined} */ #loading;
  #pointed = -1; // the measure whose field has the focus
  /** @type {IntersectionObserver | undefined} */ #seen;
  /** @type {number | undefined} */ #timer;
  /** @type {{request: Request, estimate: Answer} | undefined} */ #answer;
  /** @type {Fault[]} */ #faults = [];
  #down = false;
  #pending = false;
  /** What is to be done once the estimate under way is there. @type {(() => void) | undefined} */ #then;
  #saying = () => this.#say('begin');

  constructor() {
    super();
    this.#root.adoptedStyleSheets = [sheet];
  }

  /** The last estimate and the request that it answers; undefined while there is none. */
  get quote() { return this.#answer && structuredClone(this.#answer); }

  connectedCallback() {
    // Put in another place, it keeps what the customer has said.
    this.#loading = new AbortController();
    this.#readAttributes(this.#root.firstChild ? 'language' : undefined);
    this.#build();
    if (this.#kinds.length) {
      this.#ask(0);
      return;
    }
    // Nothing is fetched before the element is nearly in sight.
    this.#seen = new IntersectionObserver((entries) => {
      if (!entries.some((e) => e.isIntersecting)) return;
      this.#seen?.disconnect();
      this.#load();
    }, { rootMargin: '300px' });
    this.#seen.observe(this);
  }

  disconnectedCallback() {
    this.#seen?.disconnect();
    this.#stop();
    this.#loading?.abort();
  }

  /** @param {string} name @param {string | null} before @param {string | null} now */
  attributeChangedCallback(name, before, now) {
    if (before === now || !this.isConnected || !this.#root.firstChild) return;
    this.#readAttributes(name);
    if (name === 'endpoint' || name === 'cloths') {
      if (!this.#loaded) return;
      this.#load();
      return;
    }
    this.#build();
    if (name !== 'language') this.#ask(0);
    else this.#show();
  }

  /** @param {string} [only] the one that changed */
  #readAttributes(only) {
    const tag = this.getAttribute('language') || this.closest('[lang]')?.getAttribute('lang') || navigator.language;
    const [language] = tag.toLowerCase().split('-');
    this.#locale = words[language] ? tag : 'en';
    try { Intl.getCanonicalLocales(this.#locale); } catch { this.#locale = language; }
    const mine = words[language] ? language : 'en';
    this.#t = words[mine];
    const column = { de: 1, fr: 2 }[mine];
    this.#translated = new Map();
    if (column) for (const row of names) this.#translated.set(row[0], row[column]).set(row[0] + ' how', row[column + 2]);
    if (!only || only === 'units') {
      const units = this.getAttribute('units');
      this.#units(units === 'imperial' ? 'imperial' : 'metric');
    }
    if (!only || only === 'kind') this.#choose(this.getAttribute('kind') ?? this.#state.kind);
  }

  /** @param {'metric' | 'imperial'} units */
  #units(units) {
    this.#state.units = units;
    if (!this.#state.low && !this.#state.high) this.#state.per = units === 'metric' ? 'm' : 'yd';
  }

  /** @param {string} kind */
  #choose(kind) {
    if (kind === this.#state.kind) return;
    this.#state.kind = kind;
    this.#state.options = {};
    this.#state.measures = {};
  }

  // ---- words and figures

  /** @param {string} key @param {Record<string, string>} [values] */
  #say(key, values = {}) { return this.#t[key].replace(/\{(\w+)\}/g, (_, name) => values[name] ?? ''); }

  /** A name that the service gave in English. @param {string} name */
  #named(name) { return this.#translated.get(name) ?? name; }

  /** @param {string} text */
  #capital(text) { return text.charAt(0).toLocaleUpperCase(this.#locale) + text.slice(1); }

  /** @param {number} value @param {Intl.NumberFormatOptions} options */
  #number(value, options) { return new Intl.NumberFormat(this.#locale, options).format(value).replace(/ /g, '\xa0'); }

  /** A length of cloth, rounded up. @param {number} mm */
  #clothLength(mm) {
    const metric = this.#state.units === 'metric';
    const value = Math.ceil((mm / (metric ? 1000 : mmPerYard)) * 100 - 1e-6) / 100;
    return this.#number(value, { style: 'unit', unit: metric ? 'meter' : 'yard', maximumFractionDigits: 2 });
  }

  /** A measure of the piece, to a tenth. @param {number} mm @param {(x: number) => number} [round] */
  #tape(mm, round = Math.round) {
    const metric = this.#state.units === 'metric';
    const value = round((mm / (metric ? 10 : mmPerInch)) * 10 + (round === Math.ceil ? -1e-6 : 1e-6)) / 10;
    return this.#number(value, { style: 'unit', unit: metric ? 'centimeter' : 'inch', unitDisplay: 'short', maximumFractionDigits: 1 });
  }

  /** @param {Schemas['Money']} money */
  #money(money) {
    const amount = Number(money.amount);
    return this.#number(amount, { style: 'currency', currency: money.currency, ...(amount >= 100 && { maximumFractionDigits: 0 }) });
  }

  /** What stands in the field of a measure that is kept as `62 cm`. @param {string} kept */
  #inField(kept) {
    const m = /^([\d.]+) (cm|in)$/.exec(kept);
    if (!m) return kept;
    const unit = this.#state.units === 'metric' ? 'cm' : 'in';
    const value = m[2] === unit ? Number(m[1]) : Number(m[1]) * (unit === 'cm' ? mmPerInch / 10 : 10 / mmPerInch);
    return this.#number(Math.round(value * 100) / 100, { maximumFractionDigits: 2, useGrouping: false });
  }

  /** What is sent for what was typed. @param {string} typed */
  #toSend(typed) {
    const text = plainNumber(typed);
    if (/^[\d.\s/]+$/.test(text)) return `${text} ${this.#state.units === 'metric' ? 'cm' : 'in'}`;
    return text.replace(/\s*"/g, ' in').replace(/\s*'\s*/g, ' ft ').trim();
  }

  // ---- the form

  /** @param {string} id @returns {any} */
  #at(id) { return this.#root.getElementById(id); }

  get #kind() { return this.#kinds.find((k) => k.kind === this.#state.kind); }

  get #currency() { return this.getAttribute('currency')?.toUpperCase() ?? ''; }

  /** Builds all of it anew; what was said, what is open and the focus stay. */
  #build() {
    const focus = this.#root.activeElement?.id;
    const open = new Set([...this.#root.querySelectorAll('details[open]')].map((d) => d.id));
    const t = (/** @type {string} */ key) => this.#say(key);
    this.#root.replaceChildren(make('section', { part: 'box', 'aria-label': t('name'), lang: this.#locale },
      make('div', { class: 'fields', part: 'fields' },
        make('div', { class: 'pair wide' },
          this.#field('kind', t('piece'), this.#kindSelect()),
          this.#field('count', t('count'), this.#input('count', this.#state.count, { inputmode: 'numeric' }))),
        this.#radios('size', t('size'), [['small', t('small')], ['usual', t('usual')], ['large', t('large')]]),
        make('div', { id: 'clothPart', class: 'fields' }),
        make('div', { id: 'kindPart', class: 'fields' })),
      make('div', { class: 'result', part: 'result' },
        make('figure', { part: 'picture', id: 'picture', hidden: true }),
        make('p', { class: 'summary', part: 'summary', role: 'status', id: 'status', tabindex: '-1' }, this.#saying()),
        make('div', { class: 'ranges', part: 'estimate', id: 'ranges' }),
        make('div', { class: 'narrow', part: 'narrow', id: 'narrow' }),
        make('button', { type: 'button', part: 'button', id: 'again', hidden: true, onclick: () => this.#retry() }, t('again')),
        make('div', { class: 'note', part: 'notes', id: 'notes' }),
        make('p', { class: 'note', part: 'note', id: 'note' }, t('note')),
        make('slot', { name: 'contact' }),
        make('button', { type: 'button', class: 'send', part: 'button send', id: 'send', onclick: () => this.#send() }, t('send')),
        make('p', { class: 'summary', part: 'sent', role: 'status', id: 'sent' }),
        make('slot', { id: 'fallback', hidden: true }))));
    this.#buildCloth();
    this.#buildKind(open);
    if (focus) this.#at(focus)?.focus();
  }

  /** @param {string} id @param {string} label @param {HTMLElement} control @param {string} [hint] @param {string} [unit] */
  #field(id, label, control, hint, unit) {
    control.setAttribute('aria-describedby', `${hint ? `${id}-hint ` : ''}${id}-error`);
    return make('div', { class: 'field', part: 'field' },
      make('label', { for: id, part: 'label' }, label),
      unit ? make('div', { class: 'unit' }, control, make('span', { 'aria-hidden': 'true' }, unit)) : control,
      make('span', { class: 'error', part: 'error', id: `${id}-error` }),
      ...(hint ? [make('span', { class: 'hint', part: 'hint', id: `${id}-hint` }, hint)] : []));
  }

  /** @param {'count' | 'low' | 'high'} id @param {string} value @param {Record<string, any>} more */
  #input(id, value, more) {
    return make('input', { id, value, type: 'text', part: 'input', autocomplete: 'off', maxlength: '12', ...more,
      oninput: (/** @type {any} */ e) => { this.#state[id] = e.target.value; this.#ask(settle.typed); } });
  }

  /** @param {'size' | 'pattern' | 'units'} id @param {string} legend @param {string[][]} choices @param {boolean} [swatch] */
  #radios(id, legend, choices, swatch) {
    return make('fieldset', { part: 'field', 'aria-describedby': `${id}-error` }, make('legend', { part: 'label' }, legend),
      make('div', { class: 'choices' }, ...choices.map(([value, text]) => make('label', { class: 'choice', part: 'choice' },
        make('input', { type: 'radio', name: id, id: `${id}-${value}`, value, checked: this.#state[id] === value, onchange: () => this.#picked(id, value) }),
        make('span', {}, text), ...(swatch ? [make('span', { class: `swatch ${value}`, 'aria-hidden': 'true' })] : [])))),
      make('span', { class: 'error', part: 'error', id: `${id}-error` }));
  }

  /** @param {'size' | 'pattern' | 'units'} id @param {any} value */
  #picked(id, value) {
    if (id === 'units') {
      this.#units(value);
      this.#buildCloth();
      this.#buildMeasures();
      this.#show();
    } else {
      this.#state[id] = /** @type {never} */ (value);
      this.#paint();
    }
    this.#ask(settle.chosen);
  }

  #kindSelect() {
    const only = this.getAttribute('kinds')?.split(/[\s,]+/).filter(Boolean);
    const kinds = this.#kinds.filter((k) => !only || only.includes(k.kind));
    return this.#select('kind', [['', this.#say('choose')], ...kinds.map((k) => [k.kind, this.#capital(this.#named(k.name))])], this.#state.kind, (value) => {
      this.#choose(value);
      this.#faults = [];
      this.#buildKind(new Set([...this.#root.querySelectorAll('details[open]')].map((d) => d.id)));
    });
  }

  /** @param {string} id @param {string[][]} choices @param {string} chosen @param {(value: string) => void} pick */
  #select(id, choices, chosen, pick) {
    return make('select', { id, part: 'input', onchange: (/** @type {any} */ e) => { pick(e.target.value); this.#ask(settle.chosen); } },
      ...choices.map(([value, text]) => make('option', { value, selected: value === chosen }, text)));
  }

  /** The cloth: one of the shop's, or how patterned it is to be and what it may cost. */
  #buildCloth() {
    const t = (/** @type {string} */ key) => this.#say(key);
    const parts = [];
    if (this.#cloths.length) {
      parts.push(this.#field('cloth', t('cloth'), this.#select('cloth',
        [['-1', t('open')], ...this.#cloths.map((c, i) => [String(i), c.cloth.name ?? String(i + 1)])], String(this.#state.cloth), (value) => {
          this.#state.cloth = Number(value);
          this.#at('openCloth').hidden = this.#state.cloth >= 0;
          this.#paint();
        })));
    }
    const open = [this.#radios('pattern', t('pattern'),
        [['plain', t('plain')], ['small', t('patternSmall')], ['medium', t('patternMedium')], ['large', t('patternLarge')]], true)];
    const symbol = this.#symbol();
    if (symbol) {
      const money = { inputmode: 'decimal' };
      open.push(make('fieldset', { part: 'field' }, make('legend', { part: 'label' }, t(this.#state.per === 'm' ? 'priceM' : 'priceYd')),
        make('div', { class: 'pair' },
          this.#field('low', t('from'), this.#input('low', this.#state.low, money), undefined, symbol),
          this.#field('high', t('to'), this.#input('high', this.#state.high, money), undefined, symbol))));
    }
    parts.push(make('div', { class: 'fields', id: 'openCloth', hidden: this.#state.cloth >= 0 }, ...open));
    this.#at('clothPart').replaceChildren(...parts);
    this.#mark();
  }

  /** The sign of the currency; empty where there is none, or it is none. */
  #symbol() {
    try {
      return new Intl.NumberFormat(this.#locale, { style: 'currency', currency: this.#currency, currencyDisplay: 'narrowSymbol' })
        .formatToParts(0).find((p) => p.type === 'currency')?.value ?? '';
    } catch { return ''; }
  }

  /** What goes by the kind: its picture, its style, its measures. @param {Set<string>} open */
  #buildKind(open) {
    const kind = this.#kind;
    this.#at('kindPart').replaceChildren(...(kind ? [
      ...(kind.options.length ? [make('details', { id: 'style', open: open.has('style') }, make('summary', { part: 'summary-line' }, this.#say('style')),
        make('div', { class: 'grid' }, ...kind.options.map((o) => this.#field(`o-${o.option}`, this.#capital(this.#named(o.name)),
          this.#select(`o-${o.option}`, o.choices.map((c) => [c.choice, this.#capital(this.#named(c.name))]), this.#state.options[o.option] ?? '',
            (value) => { this.#state.options[o.option] = value; })))))] : []),
      make('details', { id: 'measures', open: open.has('measures'), ontoggle: () => this.#point() }, make('summary', { part: 'summary-line' }, this.#say('measures')),
        make('p', { class: 'hint' }, this.#say('measuresHint')),
        this.#radios('units', this.#say('units'), [['metric', this.#say('cm')], ['imperial', this.#say('in')]]),
        make('div', { class: 'grid', id: 'measureGrid' })),
    ] : []));
    if (kind) this.#buildMeasures();
    this.#drawPiece();
  }

  #buildMeasures() {
    const kind = this.#kind;
    if (!kind) return;
    this.#at('measureGrid').replaceChildren(...kind.measures.map((m, i) => {
      const id = `m-${m.measure}`;
      const how = this.#translated.get(`${m.name} how`) ?? m.how;
      return this.#field(id, `${letter(i)} ${this.#capital(this.#named(m.name))}`, make('input', {
        id, type: 'text', inputmode: this.#state.units === 'metric' ? 'decimal' : 'text', autocomplete: 'off', maxlength: '24', part: 'input',
        value: this.#inField(this.#state.measures[m.measure] ?? ''),
        onfocus: () => this.#point(i), onblur: () => this.#point(-1),
        oninput: (/** @type {any} */ e) => {
          const typed = e.target.value;
          if (typed.trim()) this.#state.measures[m.measure] = this.#toSend(typed);
          else delete this.#state.measures[m.measure];
          this.#ask(settle.typed);
        },
      }), `${how} (${this.#say('typical', { x: this.#tape(m.typical.mm) })})`, this.#state.units === 'metric' ? 'cm' : 'in');
    }));
    this.#mark();
  }

  // ---- the picture

  /** Fetches the picture of the kind and draws it with our own elements. */
  async #drawPiece() {
    const kind = this.#kind;
    const figure = this.#at('picture');
    figure.hidden = !kind;
    figure.replaceChildren();
    if (!kind) return;
    try {
      const answer = await this.#fetch(`/v1/furniture/${encodeURIComponent(kind.kind)}/picture`, { headers: { Accept: 'image/svg+xml' }, signal: this.#loading?.signal });
      if (!answer.ok) throw new Error();
      const text = await answer.text();
      if (this.#kind !== kind || figure !== this.#at('picture')) return;
      const drawn = redraw(new DOMParser().parseFromString(text, 'image/svg+xml'));
      drawn.setAttribute('role', 'img');
      drawn.setAttribute('aria-label', this.#named(kind.name));
      figure.replaceChildren(drawn);
      this.#paint();
      this.#point();
    } catch {
      if (figure === this.#at('picture')) figure.hidden = true; // the figures are enough
    }
  }

  /** Covers the piece with the pattern that is chosen. */
  #paint() {
    const chosen = this.#cloths[this.#state.cloth]?.cloth;
    const repeat = /^([\d.]+) ?(mm|cm|m|in)$/.exec(chosen?.pattern?.lengthRepeat ?? '');
    const cm = repeat ? Number(repeat[1]) * { mm: 0.1, cm: 1, m: 100, in: 2.54 }[/** @type {'cm'} */ (repeat[2])] : 0;
    const pattern = chosen ? (cm ? (cm < 20 ? 'small' : cm < 46 ? 'medium' : 'large') : 'plain') : this.#state.pattern;
    const step = { plain: 0, small: 16, medium: 36, large: 84 }[pattern];
    const lattice = this.#root.querySelector('pattern');
    if (!lattice) return;
    for (const [name, value] of Object.entries({ width: step || 10, height: step || 10 })) lattice.setAttribute(name, String(value));
    lattice.firstElementChild?.setAttribute('transform', `scale(${step / 24})`);
    for (const c of this.#root.querySelectorAll('.c')) c.setAttribute('fill', step ? 'url(#cloth-pattern)' : 'none');
  }

  /** Shows the marks while measures are open, and one alone while its field has the focus. @param {number} [n] */
  #point(n = this.#pointed) {
    this.#pointed = n;
    const svg = this.#root.querySelector('svg');
    svg?.classList.toggle('measuring', this.#at('measures')?.open ?? false);
    svg?.classList.toggle('pointing', n >= 0);
    svg?.querySelectorAll('.m').forEach((g, i) => g.classList.toggle('on', i === n));
  }

  // ---- asking

  /** @param {string} path @param {RequestInit} init */
  #fetch(path, init) {
    const base = this.getAttribute('endpoint') || import.meta.url.replace(/\/quote(\/[^/]+\/quote)?\.js.*$/, '');
    return fetch(base.replace(/\/$/, '') + path, { credentials: 'omit', referrerPolicy: 'no-referrer', ...init });
  }

  /** Fetches the kinds and the shop's cloths, then asks for what is chosen. */
  async #load() {
    this.#loading?.abort();
    const { signal } = (this.#loading = new AbortController());
    this.#loaded = true;
    try {
      const [furniture, cloths] = await Promise.all([
        this.#fetch('/v1/furniture', { headers: { Accept: 'application/json' }, signal }).then(json),
        this.#shopCloths(signal),
      ]);
      if (signal.aborted) return;
      this.#kinds = furniture.kinds;
      this.#cloths = cloths;
      this.#state.cloth = -1;
      this.#build();
      this.#ask(0);
    } catch {
      if (!signal.aborted) this.#failed();
    }
  }

  /** The shop's own list; without it the customer can still say how patterned the cloth is to be. @param {AbortSignal} signal */
  async #shopCloths(signal) {
    const url = this.getAttribute('cloths');
    if (!url) return [];
    try {
      const list = await fetch(new URL(url, document.baseURI), { credentials: 'omit', signal }).then(json);
      return list.cloths.filter((/** @type {any} */ c) => c?.cloth?.width);
    } catch {
      return [];
    }
  }

  /** @returns {Request} */
  #request() {
    const s = this.#state;
    /** @type {Request} */
    const r = { kind: s.kind, units: s.units, size: s.size };
    const count = s.count.trim();
    if (count !== '' && count !== '1') r.count = /** @type {number} */ (/^\d{1,9}$/.test(count) ? Number(count) : count);
    if (Object.keys(s.options).length) r.options = { ...s.options };
    if (Object.keys(s.measures).length) r.measures = { ...s.measures };
    const chosen = this.#cloths[s.cloth];
    if (chosen) {
      r.cloth = chosen.cloth;
      const p = chosen.price;
      if (p) r.price = { low: p.amount, high: p.amount, currency: p.currency, per: p.per };
    } else {
      r.pattern = s.pattern;
      const [low, high] = [plainNumber(s.low), plainNumber(s.high)];
      if ((low || high) && this.#symbol()) r.price = { low: low || high, high: high || low, currency: this.#currency, per: s.per };
    }
    const rate = this.getAttribute('labour');
    if (rate && this.#symbol()) r.labour = { rate, currency: this.#currency };
    const tax = this.getAttribute('tax');
    if (tax) r.tax = tax;
    return r;
  }

  #stop() {
    clearTimeout(this.#timer);
    this.#asking?.abort();
    this.#asking = this.#then = undefined;
    this.#pending = false;
  }

  /** The estimate is there, or will not be. */
  #settled() {
    const then = this.#then;
    this.#then = undefined;
    this.#pending = false;
    then?.();
  }

  /** Asks when nothing more has been said for a while; what was under way is dropped. @param {number} after in ms */
  #ask(after) {
    this.#stop();
    this.#down = false;
    if (!this.#loaded || !this.#kinds.length) return;
    this.#answer = undefined;
    if (!this.#state.kind) {
      this.#status(() => this.#say('begin'));
      this.#show();
      return;
    }
    this.#pending = true;
    this.#at('ranges').classList.add('stale');
    this.#timer = setTimeout(() => this.#estimate(true), after);
  }

  /** @param {boolean} mayRetry */
  async #estimate(mayRetry) {
    const asking = (this.#asking = new AbortController());
    const late = setTimeout(() => asking.abort('late'), 20000);
    const request = this.#request();
    const slow = setTimeout(() => this.#status(() => this.#say('wait')), 400);
    try {
      const answer = await this.#fetch('/v1/estimate', {
        method: 'POST', headers: { 'Content-Type': 'application/json', Accept: 'application/json' },
        body: JSON.stringify(request), signal: asking.signal,
      });
      const body = await answer.json();
      if (this.#asking !== asking) return;
      if (answer.ok) this.#answered(request, body);
      else if (answer.status === 429 || answer.status === 503) this.#busy(Number(answer.headers.get('Retry-After')) || 2, mayRetry);
      else if (body.errors?.length) this.#refused(body.errors);
      else this.#failed();
    } catch {
      if (this.#asking === asking) this.#failed();
    } finally {
      clearTimeout(late);
      clearTimeout(slow);
    }
  }

  /** Tries once more by itself, when the service says and a little later, so that not all come back at once. @param {number} seconds @param {boolean} mayRetry */
  #busy(seconds, mayRetry) {
    if (!mayRetry || seconds > 30) return this.#failed();
    this.#status(() => this.#say('busy', { x: String(seconds) }));
    this.#timer = setTimeout(() => this.#estimate(false), seconds * 1000 + Math.random() * 500);
  }

  /** @param {Request} request @param {Answer} estimate */
  #answered(request, estimate) {
    this.#answer = { request, estimate };
    this.#faults = [];
    this.#show();
    this.#status(() => this.#summary(estimate));
    this.#raise('bridletie-estimate', { request, estimate });
    this.#settled();
  }

  /** @param {Answer} estimate */
  #summary({ order, price }) {
    if (!order.high.mm) return this.#say('none');
    const [x, low, high] = price ? [price.likely, price.low, price.high].map((m) => this.#money(m)) : [order.likely, order.low, order.high].map((l) => this.#clothLength(l.mm));
    return this.#say(price ? 'summaryPrice' : 'summary', { x, low, high });
  }

  /** @param {Fault[]} faults */
  #refused(faults) {
    this.#answer = undefined;
    this.#faults = faults;
    this.#show();
    this.#settled();
  }

  #failed() {
    this.#answer = undefined;
    this.#faults = [];
    this.#down = true;
    this.#show();
    this.#status(() => this.#say('fail'));
    this.#settled();
  }

  #retry() {
    this.#at('status').focus();
    if (this.#kinds.length) this.#ask(0);
    else this.#load();
  }

  // ---- the answer

  /** Says how things stand, now and whenever the language changes. @param {() => string} say */
  #status(say) {
    this.#saying = say;
    const at = this.#at('status');
    if (at.textContent !== say()) at.textContent = say();
  }

  /** Puts the last answer, or the faults, on the page. */
  #show() {
    const a = this.#answer?.estimate;
    this.#at('again').hidden = this.#at('fallback').hidden = !this.#down;
    const ranges = this.#at('ranges');
    ranges.classList.remove('stale');
    ranges.replaceChildren(...(a && a.order.high.mm ? [
      ...(a.price ? [this.#range('price', a.price, (m) => this.#money(m), (m) => Number(m.amount))] : []),
      this.#range('length', a.order, (l) => this.#clothLength(l.mm), (l) => l.mm),
      this.#range('hours', a.hours, (h) => this.#number(Number(h), { style: 'unit', unit: 'hour', maximumFractionDigits: 1 }), Number),
    ] : []));
    const best = a?.narrow[0];
    this.#at('narrow').replaceChildren(...(best ? [make('p', {}, this.#say('narrow')),
      make('button', { type: 'button', part: 'button', onclick: () => this.#goTo(best.measure) },
        best.measure ? this.#say('measure', { x: this.#named(best.name.text) }) : this.#say('chooseCloth'))] : []));
    const notes = a && a.order.high.mm ? [...a.warnings, ...a.cautions].filter((n) => !saidElsewhere.includes(n.code)) : [];
    this.#at('notes').replaceChildren(...(notes.length ? [make('p', {}, this.#say('notes')), make('ul', {}, ...notes.map((n) => this.#note(n)))] : []));
    this.#mark();
  }

  /** A note in the customer's language; in the service's own words where there are no others. @param {Schemas['Note']} note */
  #note({ code, text, params }) {
    if (!this.#t[code]) return make('li', { lang: 'en' }, this.#capital(text));
    const list = Array.isArray(params.measures) ? params.measures : [];
    return make('li', {}, this.#say(code, { measures: list.map((name) => this.#named(name)).join(', ') }));
  }

  /**
   * @template T
   * @param {string} what
   * @param {{low: T, likely: T, high: T}} r
   * @param {(one: T) => string} text
   * @param {(one: T) => number} value
   */
  #range(what, r, text, value) {
    const [low, likely, high] = [r.low, r.likely, r.high].map(value);
    const tape = make('div', { class: 'tape', part: 'tape', 'aria-hidden': 'true' });
    tape.style.setProperty('--at', `${high > low ? Math.round(((likely - low) / (high - low)) * 96) + 2 : 50}%`);
    const one = (/** @type {'low' | 'likely' | 'high'} */ key) => make('div', {}, make('dt', {}, this.#say(key)), make('dd', { part: key }, text(r[key])));
    return make('div', { class: 'range', part: 'range' }, make('span', { class: 'what' }, this.#say(what)), make('dl', {}, one('low'), one('likely'), one('high')), tape);
  }

  /** Leads to the field that would help most. @param {string} [measure] */
  #goTo(measure) {
    if (measure) this.#at('measures').open = true;
    const field = measure ? this.#at(`m-${measure}`) : this.#at('cloth') ?? this.#at(`pattern-${this.#state.pattern}`);
    field?.focus();
    field?.scrollIntoView({ block: 'nearest' });
  }

  /** The field of a fault. @param {string} pointer */
  #fieldOf(pointer) {
    const [, first, second] = pointer.replace(/^#/, '').split('/');
    const id = { measures: `m-${second}`, options: `o-${second}`, price: second, clothWidth: 'cloth' }[first] ?? first;
    return this.#at(id) && this.#at(`${id}-error`) ? id : '';
  }

  /** Puts each fault at its field, and says in the status where to look. */
  #mark() {
    for (const e of this.#root.querySelectorAll('.error')) e.textContent = '';
    for (const e of this.#root.querySelectorAll('[aria-invalid]')) e.removeAttribute('aria-invalid');
    const where = /** @type {string[]} */ ([]);
    for (const f of this.#faults) {
      const id = this.#fieldOf(f.pointer);
      const text = this.#faultText(f, id);
      if (!id) {
        where.push(text || `${f.detail} (${f.pointer})`);
        continue;
      }
      const at = this.#at(`${id}-error`);
      if (at.textContent) continue;
      at.textContent = text || `${f.detail}${f.try ? `: ${f.try}` : ''}`;
      at.lang = text ? this.#locale : 'en';
      this.#at(id).setAttribute('aria-invalid', 'true');
      if (id.startsWith('m-')) this.#at('measures').open = true;
      where.push(this.#root.querySelector(`label[for="${id}"]`)?.textContent ?? id);
    }
    if (where.length) this.#status(() => this.#say('look', { x: where.join(', ') }));
  }

  /** What a fault is in the customer's language; empty where only the service's own words will do. @param {Fault} f @param {string} id */
  #faultText(f, id) {
    const measure = this.#kind?.measures.find((m) => `m-${m.measure}` === id);
    if (measure) {
      return f.code === 'too-small' || f.code === 'too-large'
        ? this.#say('badRange', { low: this.#tape(measure.least.mm, Math.ceil), high: this.#tape(measure.most.mm, Math.floor) })
        : this.#say('badLength', { x: this.#tape(measure.typical.mm) });
    }
    if (id === 'count') return this.#say('badCount');
    if (id === 'low' || id === 'high') return f.code === 'too-small' ? this.#say('badBand') : this.#say('badPrice', { x: this.#number(48.5, { minimumFractionDigits: 2 }) });
    if (id === 'cloth') return this.#say('badCloth');
    return this.#t === words.en ? '' : this.#say('bad');
  }

  // ---- sending

  /** @param {string} name @param {object} detail @returns {boolean} whether nobody prevented what follows */
  #raise(name, detail) {
    return this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true, cancelable: true, detail: structuredClone(detail) }));
  }

  /** Hands the request and its estimate to the page, and where it does not take them posts them to the shop. */
  async #send() {
    const said = this.#at('sent');
    if (this.#pending) {
      said.textContent = this.#say('wait');
      this.#then = () => this.#send();
      return;
    }
    if (!this.#answer) {
      const bad = this.#root.querySelector('[aria-invalid=true]') ?? this.#at(this.#state.kind ? 'send' : 'kind');
      bad.focus();
      said.textContent = this.#at('status').textContent;
      return;
    }
    const fields = /** @type {NodeListOf<HTMLInputElement>} */ (this.querySelectorAll('[slot=contact] [name], [slot=contact][name]'));
    for (const f of fields) if (f.reportValidity && !f.reportValidity()) return;
    const detail = { ...this.#answer, contact: Object.fromEntries([...fields].filter((f) => (f.type !== 'checkbox' && f.type !== 'radio') || f.checked).map((f) => [f.name, f.value])) };
    said.textContent = '';
    if (!this.#raise('bridletie-send', detail)) return; // the page has taken it, and says so itself
    const to = this.getAttribute('send-to');
    if (!to) {
      said.textContent = this.#say('unsent');
      return;
    }
    said.textContent = this.#say('sending');
    try {
      const answer = await fetch(new URL(to, document.baseURI), {
        method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(detail), credentials: 'omit',
      });
      if (!answer.ok) throw new Error();
      this.#at('sent').textContent = this.#say('sent');
    } catch {
      this.#at('sent').textContent = this.#say('unsent');
    }
  }
}

/** The letter of the nth measure, as in the drawing. @param {number} n @returns {string} */
function letter(n) {
  return n < 26 ? String.fromCharCode(65 + n) : `A${letter(n - 26)}`;
}

/** @param {Response} answer */
function json(answer) {
  if (!answer.ok) throw new Error();
  return answer.json();
}

/**
 * The service's picture in our own elements: only shapes, only their geometry, and
 * colours from the theme. Each group is a measure with its letter.
 * @param {Document} picture
 */
function redraw(picture) {
  const make = (/** @type {string} */ tag, /** @type {Record<string, string>} */ attributes) => {
    const e = document.createElementNS('http://www.w3.org/2000/svg', tag);
    for (const [name, value] of Object.entries(attributes)) e.setAttribute(name, value);
    return e;
  };
  const keep = ['x', 'y', 'width', 'height', 'd', 'cx', 'cy', 'r', 'text-anchor', 'font-size'];
  const copy = (/** @type {Element} */ from, /** @type {string} */ as) => {
    const e = make(from.localName, { class: as });
    for (const name of keep) {
      const value = from.getAttribute(name);
      if (value) e.setAttribute(name, value);
    }
    if (from.localName === 'text') e.textContent = from.textContent;
    return e;
  };
  const root = picture.documentElement;
  const svg = make('svg', { viewBox: root.getAttribute('viewBox') ?? '' });
  const lattice = make('pattern', { id: 'cloth-pattern', patternUnits: 'userSpaceOnUse' });
  lattice.append(make('path', { class: 'motif', d: 'M12 3C17 8 17 14 12 21C7 14 7 8 12 3Z' }));
  svg.append(lattice);
  for (const from of root.children) {
    if (from.localName === 'g') {
      const group = make('g', { class: 'm' });
      for (const part of from.children) if (['path', 'circle', 'text'].includes(part.localName)) group.append(copy(part, ''));
      svg.append(group);
    } else if (from.localName === 'path') {
      svg.append(copy(from, 'floor'));
    } else if (from.localName === 'rect') {
      const filled = from.getAttribute('fill') !== 'none';
      svg.append(copy(from, filled ? 'f' : from.getAttribute('stroke') === '#1b2430' ? 'l' : 'leg'));
      if (filled) svg.append(copy(from, 'c'));
    }
  }
  return svg;
}

if (!customElements.get('bridletie-quote')) customElements.define('bridletie-quote', Quote);
