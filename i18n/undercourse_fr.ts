<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="fr" sourcelanguage="en">
<context>
    <name>Base</name>
    <message>
        <source>As in the CRS of the design</source>
        <translation>Comme dans le SCR du projet</translation>
    </message>
    <message>
        <source>Before digging</source>
        <translation>Avant de creuser</translation>
    </message>
    <message>
        <source>Conventions</source>
        <translation>Conventions</translation>
    </message>
    <message>
        <source>Depth surfaces</source>
        <translation>Surfaces de profondeur</translation>
    </message>
    <message>
        <source>Design intake</source>
        <translation>Lecture du projet</translation>
    </message>
    <message>
        <source>Guidelines</source>
        <translation>Lignes guides</translation>
    </message>
    <message>
        <source>HTML page</source>
        <translation>Page HTML</translation>
    </message>
    <message>
        <source>Inputs</source>
        <translation>Données d&apos;entrée</translation>
    </message>
    <message>
        <source>International feet (0.3048 m)</source>
        <translation>Pieds internationaux (0,3048 m)</translation>
    </message>
    <message>
        <source>Metres</source>
        <translation>Mètres</translation>
    </message>
    <message>
        <source>PLY mesh</source>
        <translation>Maillage PLY</translation>
    </message>
    <message>
        <source>Results</source>
        <translation>Résultats</translation>
    </message>
    <message>
        <source>Slope breaks</source>
        <translation>Ruptures de pente</translation>
    </message>
    <message>
        <source>The model {path} cannot be loaded.</source>
        <translation>Le modèle {path} ne peut pas être chargé.</translation>
    </message>
    <message>
        <source>There is not enough memory for a design of this size: cut it into parts.</source>
        <translation>La mémoire ne suffit pas pour un projet de cette taille : découpez-le en parties.</translation>
    </message>
    <message>
        <source>US survey feet (1200/3937 m)</source>
        <translation>Pieds d&apos;arpentage américains (1200/3937 m)</translation>
    </message>
    <message>
        <source>Undercourse: depth surfaces, guidelines and slope breaks</source>
        <translation>Undercourse : surfaces de profondeur, lignes guides et ruptures de pente</translation>
    </message>
    <message>
        <source>Unit of heights</source>
        <translation>Unité des altitudes</translation>
    </message>
    <message>
        <source>Unit of the heights of the design, and of depths written without a unit. Leave it unless heights are in another unit than plan coordinates.</source>
        <translation>Unité des altitudes du projet et des profondeurs écrites sans unité. À laisser telle quelle, sauf si les altitudes sont dans une autre unité que les coordonnées planes.</translation>
    </message>
    <message>
        <source>{label}: {why}</source>
        <translation>{label} : {why}</translation>
    </message>
    <message>
        <source>{label}: “{value}” cannot be opened, check the path and the layer name.</source>
        <translation>{label} : « {value} » ne peut pas être ouvert, vérifiez le chemin et le nom de la couche.</translation>
    </message>
    <message>
        <source>{label}: “{value}” cannot be written, check that its folder exists.</source>
        <translation>{label} : « {value} » ne peut pas être écrit, vérifiez que son dossier existe.</translation>
    </message>
    <message>
        <source>“{path}” cannot be read or written: {why}.</source>
        <translation>« {path} » ne peut pas être lu ou écrit : {why}.</translation>
    </message>
    <message>
        <source>“{value}” is not one of: {words}.</source>
        <translation>« {value} » ne figure pas parmi : {words}.</translation>
    </message>
    <message>
        <source>A station is the plan distance along the line from its first vertex, plus the start station. Lines of alignments have their station as M.</source>
        <translation>Une abscisse est la distance en plan le long de la ligne depuis son premier sommet, plus l&apos;abscisse de départ. Les lignes des axes portent leur abscisse en M.</translation>
    </message>
    <message>
        <source>Counted from a start station</source>
        <translation>Comptées depuis une abscisse de départ</translation>
    </message>
    <message>
        <source>Counted from the M of the first vertex</source>
        <translation>Comptées depuis le M du premier sommet</translation>
    </message>
    <message>
        <source>Feature {id} has no M at its first vertex: count its stations from a start station.</source>
        <translation>L&apos;entité {id} n&apos;a pas de M à son premier sommet : comptez ses abscisses depuis une abscisse de départ.</translation>
    </message>
    <message>
        <source>Field with start stations</source>
        <translation>Champ des abscisses de départ</translation>
    </message>
    <message>
        <source>Start station</source>
        <translation>Abscisse de départ</translation>
    </message>
    <message>
        <source>Start station of each line; where it is empty the one above holds.</source>
        <translation>Abscisse de départ de chaque ligne ; là où elle est vide, celle ci-dessus vaut.</translation>
    </message>
    <message>
        <source>Station of the first vertex: 12+50.00 in feet, 1+250.000 in metres, or a plain distance in the unit of the CRS.</source>
        <translation>Abscisse du premier sommet : 12+50.00 en pieds, 1+250.000 en mètres, ou une simple distance dans l&apos;unité du SCR.</translation>
    </message>
    <message>
        <source>Stations</source>
        <translation>Abscisses</translation>
    </message>
    <message>
        <source>The lines have M values, which are not used: choose “Counted from the M of the first vertex” if they are stations.</source>
        <translation>Les lignes ont des valeurs M, qui ne sont pas utilisées : choisissez « Comptées depuis le M du premier sommet » si ce sont des abscisses.</translation>
    </message>
    <message>
        <source>line {id}</source>
        <translation>ligne {id}</translation>
    </message>
    <message>
        <source>{label}, feature {id}: the line has no length or no finite coordinates, remove it or draw it again.</source>
        <translation>{label}, entité {id} : la ligne n&apos;a pas de longueur ou pas de coordonnées finies, supprimez-la ou redessinez-la.</translation>
    </message>
    <message>
        <source>{label}: all heights are 0, they may have been lost when the layer was made.</source>
        <translation>{label} : toutes les altitudes valent 0, elles ont pu se perdre à la création de la couche.</translation>
    </message>
    <message>
        <source>{label}: there is no geometry in it.</source>
        <translation>{label} : il n&apos;y a pas de géométrie.</translation>
    </message>
    <message>
        <source>{label}: there is no line in it.</source>
        <translation>{label} : il n&apos;y a pas de ligne.</translation>
    </message>
    <message>
        <source>Left blank, a field called “name” is used if there is one, else the feature id.</source>
        <translation>Si vide, un champ « name » est pris s&apos;il existe, sinon l&apos;identifiant de l&apos;entité.</translation>
    </message>
    <message>
        <source>Checks and quantities</source>
        <translation>Contrôles et quantités</translation>
    </message>
    <message>
        <source>The raster has {count:,} pixels, more than {most:,}: clip it, or make its pixels larger.</source>
        <translation>Le raster a {count:,} pixels, plus de {most:,} : découpez-le ou agrandissez ses pixels.</translation>
    </message>
    <message>
        <source>{label}, feature {id}: {why}</source>
        <translation>{label}, entité {id} : {why}</translation>
    </message>
    <message>
        <source>no line has a station {station}.</source>
        <translation>aucune ligne n&apos;a d&apos;abscisse {station}.</translation>
    </message>
    <message>
        <source>{label}, feature {id}: it has two heights at one place, {low:.3f} and {high:.3f} at {x:.2f}, {y:.2f}. Move one of the two vertices, or take no heights from the lines.</source>
        <translation>{label}, entité {id} : elle a deux altitudes en un même endroit, {low:.3f} et {high:.3f} en {x:.2f}, {y:.2f}. Déplacez un des deux sommets, ou ne prenez pas les altitudes des lignes.</translation>
    </message>
</context>
<context>
    <name>BindReports</name>
    <message>
        <source>Bind reports</source>
        <translation>Relier des rapports</translation>
    </message>
    <message>
        <source>For a review that is handed over as one file, and at the end of a model. The page holds no script and nothing from elsewhere, and each report starts on a page of its own when printed.</source>
        <translation>Pour un contrôle remis en un seul fichier, et à la fin d&apos;un modèle. La page ne contient ni script ni rien d&apos;ailleurs, et chaque rapport commence sur sa propre page à l&apos;impression.</translation>
    </message>
    <message>
        <source>HTML files that algorithms of Undercourse wrote, in the order in which they are to stand.</source>
        <translation>Fichiers HTML écrits par les algorithmes d&apos;Undercourse, dans l&apos;ordre voulu.</translation>
    </message>
    <message>
        <source>Makes one report of several: all verdicts first, then each report in the order given.</source>
        <translation>Fait un seul rapport de plusieurs : d&apos;abord tous les verdicts, puis chaque rapport dans l&apos;ordre donné.</translation>
    </message>
    <message>
        <source>Number of reports to be looked at</source>
        <translation>Nombre de rapports à regarder</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Reports</source>
        <translation>Rapports</translation>
    </message>
    <message>
        <source>Review</source>
        <translation>Contrôle</translation>
    </message>
    <message>
        <source>The one report of them all.</source>
        <translation>Le rapport unique de tous.</translation>
    </message>
    <message>
        <source>Title</source>
        <translation>Titre</translation>
    </message>
    <message>
        <source>What the whole is, such as the job and the stage it is at.</source>
        <translation>Ce qu&apos;est l&apos;ensemble, par exemple le chantier et son étape.</translation>
    </message>
    <message>
        <source>report,HTML,review,join,combine,summary</source>
        <translation>rapport,HTML,contrôle,relier,réunir,résumé</translation>
    </message>
    <message>
        <source>“{title}” is to be looked at.</source>
        <translation>« {title} » est à regarder.</translation>
    </message>
</context>
<context>
    <name>BuildTin</name>
    <message>
        <source>... and {count} more, in the layer and the report.</source>
        <translation>... et {count} autres, dans la couche et le rapport.</translation>
    </message>
    <message>
        <source>A boundary with heights is the edge of the surface. One without heights cuts it; where the points do not reach it there is no surface, and the place is flagged.</source>
        <translation>Un contour avec hauteurs est le bord de la surface. Un contour sans hauteurs la coupe ; là où les points ne l&apos;atteignent pas il n&apos;y a pas de surface, et l&apos;endroit est signalé.</translation>
    </message>
    <message>
        <source>A breakline goes through the points and vertices it passes within this distance; two of them nearer than twice that are one.</source>
        <translation>Une ligne de rupture passe par les points et sommets dont elle s&apos;approche à moins de cette distance ; deux d&apos;entre eux plus proches que le double ne font qu&apos;un.</translation>
    </message>
    <message>
        <source>A point where something may be wrong, with the fields: flag (crossing, duplicate, off_line, boundary, no_height, uncovered, alone, lost), why, feature.</source>
        <translation>Un point là où quelque chose peut être faux, avec les champs : flag (crossing, duplicate, off_line, boundary, no_height, uncovered, alone, lost), why, feature.</translation>
    </message>
    <message>
        <source>Are refused</source>
        <translation>Sont refusées</translation>
    </message>
    <message>
        <source>Area within the boundary without surface</source>
        <translation>Aire dans le contour sans surface</translation>
    </message>
    <message>
        <source>Boundary</source>
        <translation>Contour</translation>
    </message>
    <message>
        <source>Breaklines</source>
        <translation>Lignes de rupture</translation>
    </message>
    <message>
        <source>Breaklines without heights</source>
        <translation>Lignes de rupture sans hauteurs</translation>
    </message>
    <message>
        <source>Build a surface</source>
        <translation>Construire une surface</translation>
    </message>
    <message>
        <source>Builds a TIN of points, breaklines and a boundary, and reports where they disagree about the height.</source>
        <translation>Construit un TIN à partir de points, de lignes de rupture et d&apos;un contour, et signale où leurs hauteurs se contredisent.</translation>
    </message>
    <message>
        <source>Built surface</source>
        <translation>Surface construite</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Choose points, breaklines, or both to build of.</source>
        <translation>Choisissez des points, des lignes de rupture ou les deux.</translation>
    </message>
    <message>
        <source>Crossings of breaklines at one height</source>
        <translation>Croisements de lignes de rupture à une même hauteur</translation>
    </message>
    <message>
        <source>Every breakline becomes a row of edges of the surface, with its vertices exactly where they are; everywhere else the triangles are those whose circles hold no other point (a constrained Delaunay triangulation). Nothing depends on the order of the features.</source>
        <translation>Chaque ligne de rupture devient une suite d&apos;arêtes de la surface, ses sommets exactement à leur place ; partout ailleurs les triangles sont ceux dont le cercle ne contient aucun autre point (triangulation de Delaunay contrainte). Rien ne dépend de l&apos;ordre des entités.</translation>
    </message>
    <message>
        <source>Faces</source>
        <translation>Faces</translation>
    </message>
    <message>
        <source>Faces at the border with a longer outer edge are dropped, one after the other from the outside; breaklines stay. Left blank, none is.</source>
        <translation>Les faces du bord dont l&apos;arête extérieure est plus longue sont retirées, l&apos;une après l&apos;autre depuis l&apos;extérieur ; les lignes de rupture restent. Vide : aucune n&apos;est retirée.</translation>
    </message>
    <message>
        <source>Faces dropped for long edges</source>
        <translation>Faces retirées pour leurs longues arêtes</translation>
    </message>
    <message>
        <source>Field with the heights of the points</source>
        <translation>Champ des hauteurs des points</translation>
    </message>
    <message>
        <source>Heights that count as one</source>
        <translation>Hauteurs tenues pour égales</translation>
    </message>
    <message>
        <source>Largest move of a merged point</source>
        <translation>Plus grand déplacement d&apos;un point fusionné</translation>
    </message>
    <message>
        <source>Left blank, the Z of the points is their height.</source>
        <translation>Vide : le Z des points est leur hauteur.</translation>
    </message>
    <message>
        <source>Length of the breaklines</source>
        <translation>Longueur des lignes de rupture</translation>
    </message>
    <message>
        <source>Length of the breaklines along edges</source>
        <translation>Longueur des lignes de rupture le long d&apos;arêtes</translation>
    </message>
    <message>
        <source>Length of the breaklines within the boundary</source>
        <translation>Longueur des lignes de rupture dans le contour</translation>
    </message>
    <message>
        <source>Lines with Z that become edges of the surface: crowns, curbs, flowlines, tops and toes. Every vertex is kept exactly; true arcs become chords within 1 mm.</source>
        <translation>Lignes avec Z qui deviennent des arêtes de la surface : faîtes, bordures, fils d&apos;eau, crêtes et pieds de talus. Chaque sommet est gardé exactement ; les vrais arcs deviennent des cordes à 1 mm près.</translation>
    </message>
    <message>
        <source>Longest edge at the border</source>
        <translation>Plus longue arête au bord</translation>
    </message>
    <message>
        <source>Measured or designed points, with Z or with a field of heights. Points on a breakline that are of another height are left out and flagged.</source>
        <translation>Points levés ou projetés, avec Z ou avec un champ de hauteurs. Les points sur une ligne de rupture qui ont une autre hauteur sont écartés et signalés.</translation>
    </message>
    <message>
        <source>Nothing in the points and lines disagrees.</source>
        <translation>Rien ne se contredit dans les points et les lignes.</translation>
    </message>
    <message>
        <source>Off the boundary {points} points and {length:.2f} {unit} of breaklines were left out.</source>
        <translation>Hors du contour, {points} points et {length:.2f} {unit} de lignes de rupture ont été écartés.</translation>
    </message>
    <message>
        <source>Page with what was built, what became of the breaklines, what may be wrong and a plan.</source>
        <translation>Page avec ce qui a été construit, ce que sont devenues les lignes de rupture, ce qui peut être faux et un plan.</translation>
    </message>
    <message>
        <source>Places to look at</source>
        <translation>Endroits à regarder</translation>
    </message>
    <message>
        <source>Places where breaklines disagree</source>
        <translation>Endroits où des lignes de rupture se contredisent</translation>
    </message>
    <message>
        <source>Places where points disagree</source>
        <translation>Endroits où des points se contredisent</translation>
    </message>
    <message>
        <source>Plan area</source>
        <translation>Aire en plan</translation>
    </message>
    <message>
        <source>Points</source>
        <translation>Points</translation>
    </message>
    <message>
        <source>Points in the surface</source>
        <translation>Points dans la surface</translation>
    </message>
    <message>
        <source>Points left out off the boundary</source>
        <translation>Points écartés hors du contour</translation>
    </message>
    <message>
        <source>Points merged with another or with a line</source>
        <translation>Points fusionnés avec un autre ou avec une ligne</translation>
    </message>
    <message>
        <source>Polygons with their holes, or closed lines: a line within another is a hole, one within a hole an island. What lies off it is left out and counted. With heights the boundary becomes the edge of the surface, and points off it count for nothing; without, the surface of all points is cut along it and changes nowhere else. Left blank, the surface reaches to the convex hull.</source>
        <translation>Polygones avec leurs trous, ou lignes fermées : une ligne dans une autre est un trou, une ligne dans un trou une île. Ce qui est dehors est écarté et compté. Avec des hauteurs, le contour devient le bord de la surface et les points dehors ne comptent pas ; sans hauteurs, la surface de tous les points est coupée le long du contour et ne change nulle part ailleurs. Vide : la surface va jusqu&apos;à l&apos;enveloppe convexe.</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Snap distance</source>
        <translation>Distance d&apos;accrochage</translation>
    </message>
    <message>
        <source>Surface</source>
        <translation>Surface</translation>
    </message>
    <message>
        <source>TIN,triangulation,triangulate,Delaunay,constrained,breakline,points,survey,surface,boundary,mesh,terrain,DTM</source>
        <translation>TIN,triangulation,trianguler,Delaunay,contrainte,ligne de rupture,points,levé,surface,contour,maillage,terrain,MNT</translation>
    </message>
    <message>
        <source>Take them from the points and other lines</source>
        <translation>Les prennent des points et des autres lignes</translation>
    </message>
    <message>
        <source>The faces as triangles with heights, with the field: face.</source>
        <translation>Les faces en triangles avec hauteurs, avec le champ : face.</translation>
    </message>
    <message>
        <source>The surface as a mesh, with the exact heights of the points.</source>
        <translation>La surface en maillage, avec les hauteurs exactes des points.</translation>
    </message>
    <message>
        <source>There is no boundary: the surface ends where {count} faces with long outer edges were dropped.</source>
        <translation>Il n&apos;y a pas de contour : la surface s&apos;arrête là où {count} faces aux longues arêtes extérieures ont été retirées.</translation>
    </message>
    <message>
        <source>There is no boundary: the surface reaches to the convex hull of the points, also over ground nobody measured.</source>
        <translation>Il n&apos;y a pas de contour : la surface va jusqu&apos;à l&apos;enveloppe convexe des points, aussi sur du terrain que personne n&apos;a levé.</translation>
    </message>
    <message>
        <source>Things that may be wrong</source>
        <translation>Choses qui peuvent être fausses</translation>
    </message>
    <message>
        <source>Units</source>
        <translation>Unités</translation>
    </message>
    <message>
        <source>Vertices</source>
        <translation>Sommets</translation>
    </message>
    <message>
        <source>What to do with vertices of breaklines that have no height. Taken from the surface, a line changes only which edges there are: drawn from point to point it has the heights of those points.</source>
        <translation>Que faire des sommets de lignes de rupture sans hauteur. Prises de la surface, elles changent seulement quelles arêtes il y a : tracée de point en point, une ligne a les hauteurs de ces points.</translation>
    </message>
    <message>
        <source>Where breaklines meet, or points lie in one place or on a line, heights that differ by no more are one. Where they differ by more neither is picked: both are left out there and flagged.</source>
        <translation>Là où des lignes de rupture se rencontrent, où des points sont au même endroit ou sur une ligne, des hauteurs qui ne diffèrent pas plus sont égales. Là où elles diffèrent plus, aucune n&apos;est choisie : les deux sont écartées à cet endroit et signalées.</translation>
    </message>
    <message>
        <source>Where two breaklines meet at one height they get a common vertex. Where their heights differ no one of them is picked: the segments that meet there are left out of both, and the place is flagged with both heights. Points in one place at different heights are all left out; a point on a breakline gives way to it.</source>
        <translation>Là où deux lignes de rupture se rencontrent à une même hauteur, elles reçoivent un sommet commun. Là où leurs hauteurs diffèrent, aucune n&apos;est choisie : les segments qui s&apos;y rencontrent sont écartés des deux, et l&apos;endroit est signalé avec les deux hauteurs. Des points au même endroit à des hauteurs différentes sont tous écartés ; un point sur une ligne de rupture lui cède.</translation>
    </message>
    <message>
        <source>a boundary must be closed: end the line where it starts.</source>
        <translation>un contour doit être fermé : terminez la ligne là où elle commence.</translation>
    </message>
    <message>
        <source>it has no finite coordinates, draw it again.</source>
        <translation>elle n&apos;a pas de coordonnées finies, redessinez-la.</translation>
    </message>
    <message>
        <source>it is neither a polygon nor a line.</source>
        <translation>ce n&apos;est ni un polygone ni une ligne.</translation>
    </message>
    <message>
        <source>it must be greater than 0.</source>
        <translation>la valeur doit être supérieure à 0.</translation>
    </message>
    <message>
        <source>it must not be negative.</source>
        <translation>la valeur ne doit pas être négative.</translation>
    </message>
    <message>
        <source>its outline crosses or touches itself, repair it.</source>
        <translation>son contour se croise ou se touche, réparez-le.</translation>
    </message>
    <message>
        <source>none</source>
        <translation>aucun</translation>
    </message>
    <message>
        <source>plan {plan}, heights {vertical}</source>
        <translation>plan {plan}, hauteurs {vertical}</translation>
    </message>
    <message>
        <source>{count} places may be wrong, {lines} of them where breaklines disagree about the height: look at each before the surface is used.</source>
        <translation>{count} endroits peuvent être faux, dont {lines} où des lignes de rupture se contredisent sur la hauteur : regardez chacun avant d&apos;employer la surface.</translation>
    </message>
    <message>
        <source>{faces} faces over {area:.2f} square {unit}. {honoured:.2f} {unit} of {inside:.2f} {unit} of breaklines within it lie along edges.</source>
        <translation>{faces} faces sur {area:.2f} {unit} carrés. {honoured:.2f} {unit} sur {inside:.2f} {unit} de lignes de rupture à l&apos;intérieur suivent des arêtes.</translation>
    </message>
    <message>
        <source>{label}, feature {id}: some heights are missing; give all corners of the boundary a height, or none.</source>
        <translation>{label}, entité {id} : des hauteurs manquent ; donnez-en une à tous les sommets du contour, ou à aucun.</translation>
    </message>
    <message>
        <source>{label}, feature {id}: the line has no finite coordinates, draw it again.</source>
        <translation>{label}, entité {id} : la ligne n&apos;a pas de coordonnées finies, redessinez-la.</translation>
    </message>
    <message>
        <source>{label}: all heights are 0, they may have been lost when the layer was made. Those of lines and boundaries count as missing.</source>
        <translation>{label} : toutes les hauteurs sont 0, elles ont pu se perdre à la création de la couche. Celles des lignes et des contours comptent comme manquantes.</translation>
    </message>
    <message>
        <source>{label}: the points have no heights, choose the field that holds them or a layer of points with Z.</source>
        <translation>{label} : les points n&apos;ont pas de hauteurs, choisissez le champ qui les contient ou une couche de points avec Z.</translation>
    </message>
    <message>
        <source>{label}: there is no outline in it.</source>
        <translation>{label} : il n&apos;y a aucun contour dedans.</translation>
    </message>
</context>
<context>
    <name>CheckDepth</name>
    <message>
        <source>A zone passes when everything in it was compared and lies within tolerance. Where a part has no data it is incomplete, not a pass.</source>
        <translation>Une zone est conforme quand tout y a été comparé et se trouve dans la tolérance. Là où une partie n&apos;a pas de données, elle est incomplète, et non conforme.</translation>
    </message>
    <message>
        <source>Actual points</source>
        <translation>Points relevés</translation>
    </message>
    <message>
        <source>Actual surface</source>
        <translation>Surface réelle</translation>
    </message>
    <message>
        <source>Actual surface or points</source>
        <translation>Surface réelle ou points relevés</translation>
    </message>
    <message>
        <source>All ground</source>
        <translation>Tout le terrain</translation>
    </message>
    <message>
        <source>Area too deep, square plan units</source>
        <translation>Aire trop profonde, unités de plan au carré</translation>
    </message>
    <message>
        <source>Area too shallow, square plan units</source>
        <translation>Aire pas assez profonde, unités de plan au carré</translation>
    </message>
    <message>
        <source>Both surfaces are TINs: areas were cut where the depth crosses its limits, exactly, and the worst places are corners of the cells of both.</source>
        <translation>Les deux surfaces sont des TIN : les aires ont été coupées exactement là où la profondeur franchit ses limites, et les pires endroits sont des coins des cellules des deux.</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Check depths</source>
        <translation>Vérifier les profondeurs</translation>
    </message>
    <message>
        <source>Checked depths, {name}</source>
        <translation>Profondeurs vérifiées, {name}</translation>
    </message>
    <message>
        <source>Checked ground or points</source>
        <translation>Terrain ou points vérifiés</translation>
    </message>
    <message>
        <source>Compared in pixels {pixel} wide, by the depth at their centres.</source>
        <translation>Comparé par pixels de {pixel}, selon la profondeur en leur centre.</translation>
    </message>
    <message>
        <source>Compares a surface or surveyed points with the depth asked for below the design, zone by zone, and says where it is too shallow or too deep, by how much, and whether each zone passes.</source>
        <translation>Compare une surface ou des points relevés à la profondeur demandée sous le projet, zone par zone, et dit où elle est trop faible ou trop forte, de combien, et si chaque zone est conforme.</translation>
    </message>
    <message>
        <source>Depth asked for</source>
        <translation>Profondeur demandée</translation>
    </message>
    <message>
        <source>Depth below the design, measured vertically, positive down: that of all zones, or of those whose field is blank.</source>
        <translation>Profondeur sous le projet, mesurée verticalement, positive vers le bas : celle de toutes les zones, ou de celles dont le champ est vide.</translation>
    </message>
    <message>
        <source>Depth found is the height of the design less that of what was checked, vertically. A depth within {slack} of a limit keeps it.</source>
        <translation>La profondeur trouvée est la hauteur du projet moins celle de ce qui est vérifié, verticalement. Une profondeur à moins de {slack} d&apos;une limite la respecte.</translation>
    </message>
    <message>
        <source>Depth is measured vertically, design less actual, positive below the design. The deviation is depth found less depth asked: + is deeper, - is shallower. The tolerance may differ for the two: -0 / +0.05 ft lets nothing be shallower.</source>
        <translation>La profondeur est mesurée verticalement, projet moins réel, positive sous le projet. L&apos;écart est la profondeur trouvée moins la profondeur demandée : + est plus profond, - est moins profond. La tolérance peut différer pour les deux : -0 / +0.05 ft ne permet rien de moins profond.</translation>
    </message>
    <message>
        <source>Depth of each zone, as a number or with its unit. With no field and no depth given, a field called “depth” is used.</source>
        <translation>Profondeur de chaque zone, un nombre ou avec son unité. Sans champ ni profondeur, un champ appelé « depth » est utilisé.</translation>
    </message>
    <message>
        <source>Depths by zone, {name}</source>
        <translation>Profondeurs par zone, {name}</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>Field with depths asked for</source>
        <translation>Champ des profondeurs demandées</translation>
    </message>
    <message>
        <source>Field with heights of points</source>
        <translation>Champ des hauteurs des points</translation>
    </message>
    <message>
        <source>Field with tolerances</source>
        <translation>Champ des tolérances</translation>
    </message>
    <message>
        <source>Give the cover asked for over the lines, or a depth asked for.</source>
        <translation>Donnez le recouvrement demandé au-dessus des lignes, ou une profondeur demandée.</translation>
    </message>
    <message>
        <source>Height of each point. Left blank, the Z of the points is taken.</source>
        <translation>Hauteur de chaque point. Vide : le Z des points est pris.</translation>
    </message>
    <message>
        <source>It has no height.</source>
        <translation>Il n&apos;a pas de hauteur.</translation>
    </message>
    <message>
        <source>It lies in no zone: no depth is asked there.</source>
        <translation>Il n&apos;est dans aucune zone : aucune profondeur n&apos;y est demandée.</translation>
    </message>
    <message>
        <source>It lies off the design, or where the design has no data.</source>
        <translation>Il est hors du projet, ou là où le projet n&apos;a pas de données.</translation>
    </message>
    <message>
        <source>Least cover asked for</source>
        <translation>Recouvrement minimal demandé</translation>
    </message>
    <message>
        <source>Least cover over the lines, height units</source>
        <translation>Recouvrement minimal au-dessus des lignes, unités de hauteur</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Lignes</translation>
    </message>
    <message>
        <source>Lines that need cover</source>
        <translation>Lignes à recouvrir</translation>
    </message>
    <message>
        <source>Lines with heights, such as the top of a pipe: the least cover under the design, and where it is.</source>
        <translation>Lignes avec hauteurs, comme le dessus d&apos;une conduite : le recouvrement minimal sous le projet, et où il est.</translation>
    </message>
    <message>
        <source>Number of lines with too little cover</source>
        <translation>Nombre de lignes trop peu recouvertes</translation>
    </message>
    <message>
        <source>Number of points not checked</source>
        <translation>Nombre de points non vérifiés</translation>
    </message>
    <message>
        <source>Number of zones not or not wholly checked</source>
        <translation>Nombre de zones non ou pas entièrement vérifiées</translation>
    </message>
    <message>
        <source>Number of zones that fail</source>
        <translation>Nombre de zones non conformes</translation>
    </message>
    <message>
        <source>Number of zones that pass</source>
        <translation>Nombre de zones conformes</translation>
    </message>
    <message>
        <source>Of a surface, polygons for each zone and kind: zone_id, zone, result (pass, fail, not judged), kind (pass, shallow, deep, strip), depth_asked, tolerance, area, share in percent. Of points, the points: result (pass, fail, unmatched), kind, design, actual, depth_found, depth_asked, deviation (found less asked: + deeper), why.</source>
        <translation>D&apos;une surface, des polygones par zone et par sorte : zone_id, zone, result (pass, fail, not judged), kind (pass, shallow, deep, strip), depth_asked, tolerance, area, share en pour cent. De points, les points : result (pass, fail, unmatched), kind, design, actual, depth_found, depth_asked, deviation (trouvé moins demandé : + plus profond), why.</translation>
    </message>
    <message>
        <source>One length for both ways (0.05 ft), or one for each way: -0 / +0.05 ft, where - is shallower and + is deeper than asked; “any” for no limit, so that -0 / +any asks for at least the depth. Heights within 0.2 mm of a limit keep it.</source>
        <translation>Une longueur pour les deux sens (0.05 ft), ou une par sens : -0 / +0.05 ft, où - est moins profond et + plus profond que demandé ; « any » pour sans limite : -0 / +any demande au moins la profondeur. Des hauteurs à moins de 0.2 mm d&apos;une limite la respectent.</translation>
    </message>
    <message>
        <source>One row for each zone, the total and each line: what was asked, areas or numbers of points that pass, are too shallow or too deep, share within tolerance, least, mean and greatest deviation, result, flag and why.</source>
        <translation>Une ligne par zone, le total et chaque ligne : ce qui était demandé, aires ou nombres de points conformes, pas assez ou trop profonds, part dans la tolérance, écart minimal, moyen et maximal, result, flag et why.</translation>
    </message>
    <message>
        <source>Over lines with heights (a pipe) it gives the least cover below the design, where it is, and how long the cover is too little.</source>
        <translation>Au-dessus de lignes avec hauteurs (une conduite), donne le recouvrement minimal sous le projet, où il est, et sur quelle longueur il est trop faible.</translation>
    </message>
    <message>
        <source>Page with a verdict for each zone, a plan, the worst places and histograms.</source>
        <translation>Page avec un verdict par zone, un plan, les pires endroits et des histogrammes.</translation>
    </message>
    <message>
        <source>Plan unit</source>
        <translation>Unité de plan</translation>
    </message>
    <message>
        <source>Polygons with the depth asked for. Left blank, one depth is asked for everywhere; ground outside the zones is not checked.</source>
        <translation>Polygones avec la profondeur demandée. Vide : une seule profondeur est demandée partout ; le terrain hors des zones n&apos;est pas vérifié.</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Share within tolerance, percent</source>
        <translation>Part dans la tolérance, pour cent</translation>
    </message>
    <message>
        <source>Strips not judged, narrower than</source>
        <translation>Bandes non jugées, plus étroites que</translation>
    </message>
    <message>
        <source>Table by zone</source>
        <translation>Tableau par zone</translation>
    </message>
    <message>
        <source>The finished grade that depths count from, positive below it. A mesh, a polygon layer with heights, or a raster, in a projected CRS.</source>
        <translation>Le niveau fini d&apos;où comptent les profondeurs, positives au-dessous. Un maillage, une couche de polygones avec hauteurs ou un raster, dans un SCR projeté.</translation>
    </message>
    <message>
        <source>The points of “{name}” have no heights: choose the field that holds them.</source>
        <translation>Les points de « {name} » n&apos;ont pas de hauteurs : choisissez le champ qui les contient.</translation>
    </message>
    <message>
        <source>The worst place of each region that fails, of each zone&apos;s points and of each line, the farthest off first: kind, depth_found, depth_asked, deviation, beyond (how far past its limit), area of its region, why.</source>
        <translation>Le pire endroit de chaque partie non conforme, des points de chaque zone et de chaque ligne, le plus grand écart d&apos;abord : kind, depth_found, depth_asked, deviation, beyond (de combien la limite est dépassée), area de sa partie, why.</translation>
    </message>
    <message>
        <source>There is no depth to check against: give a depth asked for, or zones with a field of depths.</source>
        <translation>Il n&apos;y a pas de profondeur à vérifier : donnez une profondeur demandée, ou des zones avec un champ de profondeurs.</translation>
    </message>
    <message>
        <source>There is nothing to check: choose the actual surface or points, or lines that need cover.</source>
        <translation>Il n&apos;y a rien à vérifier : choisissez la surface réelle ou les points relevés, ou des lignes à recouvrir.</translation>
    </message>
    <message>
        <source>Tolerance</source>
        <translation>Tolérance</translation>
    </message>
    <message>
        <source>Tolerance of each zone, written in the same way; blank ones take the one for all.</source>
        <translation>Tolérance de chaque zone, écrite de la même façon ; les vides prennent celle de toutes.</translation>
    </message>
    <message>
        <source>Total</source>
        <translation>Total</translation>
    </message>
    <message>
        <source>Two TINs are compared exactly: areas that pass and fail end where the depth crosses its limit, and the worst place of each region is the very point. With a raster, each pixel counts with the depth at its centre. Points are compared one by one; those that cannot be are listed with the reason.</source>
        <translation>Deux TIN sont comparés exactement : les aires conformes et non conformes s&apos;arrêtent là où la profondeur franchit sa limite, et le pire endroit de chaque partie est le point même. Avec un raster, chaque pixel compte avec la profondeur en son centre. Les points sont comparés un par un ; ceux qui ne peuvent l&apos;être sont listés avec la raison.</translation>
    </message>
    <message>
        <source>Unit of heights</source>
        <translation>Unité des hauteurs</translation>
    </message>
    <message>
        <source>Vertical distance from the line up to the design. Left blank, it is the depth asked for.</source>
        <translation>Distance verticale de la ligne jusqu&apos;au projet. Vide : la profondeur demandée.</translation>
    </message>
    <message>
        <source>What was dug or is planned below the design: a surface, or surveyed points with heights. In the CRS and height unit of the design. May be left blank when only the cover over lines is checked.</source>
        <translation>Ce qui a été creusé ou est prévu sous le projet : une surface, ou des points relevés avec hauteurs. Dans le SCR et l&apos;unité de hauteur du projet. Peut rester vide quand seul le recouvrement de lignes est vérifié.</translation>
    </message>
    <message>
        <source>Worst places</source>
        <translation>Pires endroits</translation>
    </message>
    <message>
        <source>Worst places, {name}</source>
        <translation>Pires endroits, {name}</translation>
    </message>
    <message>
        <source>Zone {id}, field “{field}”: {why}</source>
        <translation>Zone {id}, champ « {field} » : {why}</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
    <message>
        <source>depth,check,tolerance,as-built,topsoil,subgrade,cover,pipe,pass,fail,residual,points,review</source>
        <translation>profondeur,vérifier,tolérance,récolement,terre végétale,fond de forme,recouvrement,conduite,conforme,non conforme,écart,points,contrôle</translation>
    </message>
    <message>
        <source>{off} deeper than asked.</source>
        <translation>{off} plus profond que demandé.</translation>
    </message>
    <message>
        <source>{off} shallower than asked.</source>
        <translation>{off} moins profond que demandé.</translation>
    </message>
    <message>
        <source>An upright step between zones lies in one of them with a little width. Failing strips that are nowhere wider than this are told, but do not fail a zone. 0 judges all.</source>
        <translation>Une marche verticale entre zones se trouve dans l&apos;une d&apos;elles sur une faible largeur. Les bandes non conformes qui ne sont nulle part plus larges que cela sont signalées, mais ne font pas échouer une zone. 0 juge tout.</translation>
    </message>
    <message>
        <source>Failing strips nowhere wider than {width} were not judged.</source>
        <translation>Les bandes non conformes nulle part plus larges que {width} n&apos;ont pas été jugées.</translation>
    </message>
</context>
<context>
    <name>CheckDesign</name>
    <message>
        <source>A finding is an error, or something to check that may be meant. A surface without findings can still be wrong: it is compared with nothing else here.</source>
        <translation>Un constat est une erreur, ou un point à vérifier qui peut être voulu. Une surface sans constat peut tout de même être fausse : elle n&apos;est comparée à rien d&apos;autre ici.</translation>
    </message>
    <message>
        <source>A page with the verdict, a plan, each finding with its place and what to do, and what was looked at.</source>
        <translation>Une page avec le verdict, un plan, chaque constat avec son lieu et ce qu&apos;il faut faire, et ce qui a été examiné.</translation>
    </message>
    <message>
        <source>A point is a spike when it is off the plane of its neighbours by more than this, {spread:g} times as far as most of them are, and rises from that plane by more than {steep:.0f} %. Points on the border are not judged. With a unit, or in the unit of heights: 0.3 m, 1 ft.</source>
        <translation>Un point est un pic quand il s&apos;écarte du plan de ses voisins de plus que cette valeur, {spread:g} fois plus que la plupart d&apos;entre eux, et s&apos;élève de ce plan à plus de {steep:.0f} %. Les points du bord ne sont pas jugés. Avec une unité, ou dans l&apos;unité des altitudes : 0.3 m, 1 ft.</translation>
    </message>
    <message>
        <source>An expression that is true for zones in which water is meant to stand, for example &quot;name&quot; = &apos;Rain garden&apos;. A pond that lies in them (99 % of it) is a note and not a finding; one that reaches past them is a finding.</source>
        <translation>Une expression vraie pour les zones où l&apos;eau doit stagner, par exemple &quot;name&quot; = &apos;Rain garden&apos;. Une mare qui s&apos;y trouve (à 99 %) est une remarque et non un constat ; une mare qui les dépasse est un constat.</translation>
    </message>
    <message>
        <source>Area of holes (CRS unit)</source>
        <translation>Aire des trous (unité du SCR)</translation>
    </message>
    <message>
        <source>Area of ponds that are not meant (CRS unit)</source>
        <translation>Aire des mares non voulues (unité du SCR)</translation>
    </message>
    <message>
        <source>Area of the design in no zone (CRS unit)</source>
        <translation>Aire du projet hors de toute zone (unité du SCR)</translation>
    </message>
    <message>
        <source>Check a design</source>
        <translation>Vérifier un projet</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>Error: {what}: {count}</source>
        <translation>Erreur : {what} : {count}</translation>
    </message>
    <message>
        <source>Field with the names</source>
        <translation>Champ des noms</translation>
    </message>
    <message>
        <source>Field with the priority of each zone</source>
        <translation>Champ de la priorité de chaque zone</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Constats</translation>
    </message>
    <message>
        <source>Findings: {what}</source>
        <translation>Constats : {what}</translation>
    </message>
    <message>
        <source>Ground they cover</source>
        <translation>Terrain qu&apos;ils couvrent</translation>
    </message>
    <message>
        <source>Looks for what is wrong with a surface and its zones before work begins: doubtful points, faces over one another, holes, spikes, ponds, gaps between zones, wrong units, each with its place and what to do.</source>
        <translation>Cherche ce qui ne va pas dans une surface et ses zones avant le début des travaux : points douteux, faces superposées, trous, pics, mares, vides entre zones, unités fausses, chacun avec son lieu et ce qu&apos;il faut faire.</translation>
    </message>
    <message>
        <source>No zone is meant to hold water: “{text}”.</source>
        <translation>Aucune zone n&apos;est destinée à retenir l&apos;eau : « {text} ».</translation>
    </message>
    <message>
        <source>Note: {what}: {count}</source>
        <translation>Remarque : {what} : {count}</translation>
    </message>
    <message>
        <source>Nothing is wrong with the design itself.</source>
        <translation>Rien d&apos;anormal dans le projet lui-même.</translation>
    </message>
    <message>
        <source>Number of errors</source>
        <translation>Nombre d&apos;erreurs</translation>
    </message>
    <message>
        <source>Number of findings (errors and checks)</source>
        <translation>Nombre de constats (erreurs et points à vérifier)</translation>
    </message>
    <message>
        <source>Number of notes</source>
        <translation>Nombre de remarques</translation>
    </message>
    <message>
        <source>Number of things to check</source>
        <translation>Nombre de points à vérifier</translation>
    </message>
    <message>
        <source>One point for each finding, with the fields: {columns}.</source>
        <translation>Un point par constat, avec les champs : {columns}.</translation>
    </message>
    <message>
        <source>Points: two in one place, at one height or at two; spikes; points without a face. Faces: over one another, without area, slivers, upright or steeper than 10 to 1, long and skinny at the edge. The whole: holes and their area, isolated pieces, edges of more than two faces, cracks.</source>
        <translation>Points : deux au même endroit, à une même altitude ou à deux ; pics ; points sans face. Faces : superposées, sans aire, filiformes, verticales ou plus raides que 10 pour 1, longues et minces au bord. L&apos;ensemble : trous et leur aire, morceaux isolés, arêtes de plus de deux faces, fentes.</translation>
    </message>
    <message>
        <source>Polygons that are to be used with the design, checked for overlaps, gaps, and ground past the design. Zones in another CRS are moved to that of the design.</source>
        <translation>Polygones à utiliser avec le projet, vérifiés quant aux recouvrements, aux vides et au terrain hors du projet. Les zones dans un autre SCR sont ramenées dans celui du projet.</translation>
    </message>
    <message>
        <source>Ponds from {depth}</source>
        <translation>Mares à partir de {depth}</translation>
    </message>
    <message>
        <source>Ponds: water rises in every low point until it spills, over the lowest pass of the triangles; where pools run together they are one. Level, depth, area and volume are exact on the triangles. A depth surface that cannot drain is found so too.</source>
        <translation>Mares : l&apos;eau monte en chaque point bas jusqu&apos;à déborder par le col le plus bas des triangles ; les flaques qui se rejoignent n&apos;en font qu&apos;une. Niveau, profondeur, aire et volume sont exacts sur les triangles. Une surface de profondeur qui ne peut pas s&apos;égoutter est trouvée de même.</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Shallowest pond</source>
        <translation>Mare la moins profonde</translation>
    </message>
    <message>
        <source>Smallest spike</source>
        <translation>Plus petit pic</translation>
    </message>
    <message>
        <source>The surface to check: a design, existing ground, or a depth surface (can it drain?). A mesh layer, a polygon layer with heights, or a raster of up to 4 million pixels, which is triangulated between the centres of its pixels. Its CRS must be projected.</source>
        <translation>La surface à vérifier : un projet, le terrain existant ou une surface de profondeur (peut-elle s&apos;égoutter ?). Une couche de maillage, une couche de polygones avec altitudes, ou un raster de 4 millions de pixels au plus, triangulé entre les centres de ses pixels. Son SCR doit être projeté.</translation>
    </message>
    <message>
        <source>To check: {what}: {count}</source>
        <translation>À vérifier : {what} : {count}</translation>
    </message>
    <message>
        <source>Units: whether the design lies in the area its CRS is made for, and if not, whether it would in feet or metres or with easting and northing exchanged; heights that look too large for the plan; in feet, how far the other foot would shift the design (a note).</source>
        <translation>Unités : si le projet se trouve dans le domaine d&apos;emploi de son SCR et, sinon, s&apos;il y serait en pieds, en mètres ou avec est et nord échangés ; altitudes qui semblent trop grandes pour le plan ; en pieds, de combien l&apos;autre pied décalerait le projet (une remarque).</translation>
    </message>
    <message>
        <source>Volume of ponds that are not meant (CRS unit)</source>
        <translation>Volume des mares non voulues (unité du SCR)</translation>
    </message>
    <message>
        <source>Water that stands less deep than this is passed over. All borders of the surface let water off, those of holes too; no pipe and no soil takes any. With a unit, or in the unit of heights: 6 mm, 1/4 in, 0.02 ft.</source>
        <translation>L&apos;eau moins profonde que cela est passée sous silence. Tous les bords de la surface laissent l&apos;eau s&apos;écouler, ceux des trous aussi ; ni conduite ni sol n&apos;en absorbe. Avec une unité, ou dans l&apos;unité des altitudes : 6 mm, 1/4 in, 0.02 ft.</translation>
    </message>
    <message>
        <source>What findings cover: the water of ponds, holes, faces, overlaps and gaps. The same fields and numbers.</source>
        <translation>Ce que les constats couvrent : l&apos;eau des mares, trous, faces, recouvrements et vides. Les mêmes champs et numéros.</translation>
    </message>
    <message>
        <source>Where zones overlap, the one with the lower number wins: such an overlap is a note and not a finding. Left blank, a field called “priority” is used if there is one.</source>
        <translation>Là où des zones se recouvrent, celle au plus petit numéro l&apos;emporte : un tel recouvrement est une remarque et non un constat. Laissé vide, un champ nommé « priority » est utilisé s&apos;il existe.</translation>
    </message>
    <message>
        <source>Widest gap between zones</source>
        <translation>Plus large vide entre zones</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
    <message>
        <source>Zones meant to hold water</source>
        <translation>Zones destinées à retenir l&apos;eau</translation>
    </message>
    <message>
        <source>Zones that leave a gap of up to this are meant to meet. Wider ones are meant to be apart, unless zones enclose the ground between them. With a unit, or in the unit of the plan.</source>
        <translation>Des zones qui laissent un vide jusqu&apos;à cette largeur sont censées se toucher. Plus écartées, elles sont censées être séparées, sauf si des zones enferment le terrain entre elles. Avec une unité, ou dans l&apos;unité du plan.</translation>
    </message>
    <message>
        <source>Zones: overlaps that no priority settles, gaps and slits between neighbours, ground that zones enclose, zones past the design.</source>
        <translation>Zones : recouvrements qu&apos;aucune priorité ne règle, vides et fentes entre voisines, terrain que des zones enferment, zones hors du projet.</translation>
    </message>
    <message>
        <source>check,quality,intake,duplicate,overlap,hole,spike,sliver,pond,puddle,drainage,low point,depression,zones,gap,units,feet</source>
        <translation>vérifier,qualité,réception,doublon,recouvrement,trou,pic,face filiforme,mare,flaque,drainage,point bas,dépression,zones,vide,unités,pieds</translation>
    </message>
    <message>
        <source>gaps between zones up to {width}</source>
        <translation>vides entre zones jusqu&apos;à {width}</translation>
    </message>
    <message>
        <source>it asks for zones, but none are given.</source>
        <translation>elle porte sur des zones, mais aucune n&apos;est donnée.</translation>
    </message>
    <message>
        <source>it cannot be negative, nor can a spike be 0.</source>
        <translation>la valeur ne peut être négative, ni un pic valoir 0.</translation>
    </message>
    <message>
        <source>number (as in the report), flag (short code), what, weight (error: wrong; check: may be meant; note: good to know), why, what_to_do, feature (face, point or zone), area, volume (plan units), height (how deep or high), level (of the water)</source>
        <translation>number (comme dans le rapport), flag (code court), what (de quoi il s&apos;agit), weight (error : faux ; check : peut être voulu ; note : bon à savoir), why (pourquoi), what_to_do (que faire), feature (face, point ou zone), area, volume (unités du plan), height (profondeur ou hauteur), level (niveau de l&apos;eau)</translation>
    </message>
    <message>
        <source>spikes from {height}</source>
        <translation>pics à partir de {height}</translation>
    </message>
</context>
<context>
    <name>CheckGrades</name>
    <message>
        <source>A TIN is judged face by face, exactly: zones cut its faces, and each piece keeps the grade of its face. A raster is judged pixel by pixel: the grade of a pixel is that of Horn&apos;s rule over its eight neighbours, a pixel without all of them is not judged, and it belongs to the zone that holds its centre. A grade fails when it misses its limit by more than the coordinates can be off for rounding: 1:48 passes a limit of 1:48, 2.1 % does not.</source>
        <translation>Un TIN est jugé face par face, exactement : les zones coupent ses faces, et chaque morceau garde la pente de sa face. Un raster est jugé pixel par pixel : la pente d&apos;un pixel est celle de la règle de Horn sur ses huit voisins, un pixel auquel il en manque n&apos;est pas jugé, et il appartient à la zone qui contient son centre. Une pente est non conforme quand elle manque sa limite de plus que ce dont les coordonnées peuvent être fausses par arrondi : 1:48 respecte une limite de 1:48, 2,1 % non.</translation>
    </message>
    <message>
        <source>A rule for changes of grade needs the gutter lines: choose them, or take the rule away.</source>
        <translation>Une règle sur les changements de pente demande les lignes de caniveau : choisissez-les, ou retirez la règle.</translation>
    </message>
    <message>
        <source>A table of rules of your own instead of those of the plugin: CSV with the columns name, measure (max_slope, along, across, break), min, max, source, note.</source>
        <translation>Un tableau de vos propres règles à la place de celles de l&apos;extension : CSV avec les colonnes name, measure (max_slope, along, across, break), min, max, source, note.</translation>
    </message>
    <message>
        <source>A table with one row for each zone and limit: zone_id, zone, rule, source, measure, limit_min, limit_max, result (pass, near, fail, unchecked); area, area_checked, fail_area, fail_share (percent of the area checked), just_area, near_area, thin_area; grade_min, grade_max, grade_mean (by area); worst, x, y (the worst place); length_checked, length_fail (of gutters); verdict.</source>
        <translation>Un tableau avec une ligne par zone et par limite : zone_id, zone, rule, source, measure, limit_min, limit_max, result (pass, near, fail, unchecked) ; area, area_checked, fail_area, fail_share (pour cent de l&apos;aire contrôlée), just_area, near_area, thin_area ; grade_min, grade_max, grade_mean (pondérée par l&apos;aire) ; worst, x, y (le pire endroit) ; length_checked, length_fail (des caniveaux) ; verdict.</translation>
    </message>
    <message>
        <source>Across the lines (cross slope)</source>
        <translation>En travers des lignes (dévers)</translation>
    </message>
    <message>
        <source>All gutters</source>
        <translation>Tous les caniveaux</translation>
    </message>
    <message>
        <source>Along and across, the grade of a face is resolved along and square to the nearest line at its centre, and judged by its size. Round the outside of a corner of the line the direction turns evenly. Where the verdict hangs on which place of a line is meant, the area is told.</source>
        <translation>En long et en travers, la pente d&apos;une face est décomposée le long de la ligne la plus proche de son centre et d&apos;équerre à elle, et jugée par sa grandeur. Autour du côté extérieur d&apos;un angle de la ligne, la direction tourne régulièrement. Là où le verdict dépend de l&apos;endroit de la ligne que l&apos;on entend, l&apos;aire est signalée.</translation>
    </message>
    <message>
        <source>Along the lines</source>
        <translation>Le long des lignes</translation>
    </message>
    <message>
        <source>An edge of the design lies on a gutter line when it is no farther away than this all along.</source>
        <translation>Une arête du projet suit une ligne de caniveau quand elle n&apos;en est nulle part plus éloignée que cela.</translation>
    </message>
    <message>
        <source>Area checked (square CRS units)</source>
        <translation>Aire contrôlée (unités du SCR au carré)</translation>
    </message>
    <message>
        <source>Area that fails (square CRS units)</source>
        <translation>Aire non conforme (unités du SCR au carré)</translation>
    </message>
    <message>
        <source>Areas narrower than this do not count</source>
        <translation>Les aires plus étroites ne comptent pas</translation>
    </message>
    <message>
        <source>Areas that fail or nearly fail</source>
        <translation>Aires non conformes ou de justesse conformes</translation>
    </message>
    <message>
        <source>As 13.3 %. Left blank, it is that of the first rule with the measure break: of those that come with the plugin, prowag_gutter_break.</source>
        <translation>Comme 13.3 %. Laissé vide, c&apos;est celui de la première règle dont la mesure est break : parmi celles de l&apos;extension, prowag_gutter_break.</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Changes of grade at gutters</source>
        <translation>Changements de pente aux caniveaux</translation>
    </message>
    <message>
        <source>Changes of grade at gutters need a TIN, since a raster has no edges: choose the TIN of the design, or leave the gutter lines out.</source>
        <translation>Les changements de pente aux caniveaux demandent un TIN, car un raster n&apos;a pas d&apos;arêtes : choisissez le TIN du projet, ou laissez les lignes de caniveau de côté.</translation>
    </message>
    <message>
        <source>Check grades</source>
        <translation>Contrôler les pentes</translation>
    </message>
    <message>
        <source>Coordinates are rounded to</source>
        <translation>Les coordonnées sont arrondies à</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>Edges follow a gutter line within</source>
        <translation>Les arêtes suivent un caniveau à</translation>
    </message>
    <message>
        <source>Edges on the gutter lines with the fields: zone_id, zone, rule, result (pass, near, fail), flag; change, grade_left, grade_right (going away from the edge, + rises), limit_max, over, in percent; length; why.</source>
        <translation>Arêtes sur les lignes de caniveau avec les champs : zone_id, zone, rule, result (pass, near, fail), flag ; change, grade_left, grade_right (en s&apos;éloignant de l&apos;arête, + monte), limit_max, over, en pour cent ; length ; why.</translation>
    </message>
    <message>
        <source>FAIL</source>
        <translation>ÉCHEC</translation>
    </message>
    <message>
        <source>Faces whose centre lies farther from any line are not checked along and across, and their area is told. Left blank, the nearest line counts however far it is.</source>
        <translation>Les faces dont le centre est plus loin de toute ligne ne sont pas contrôlées en long et en travers, et leur aire est signalée. Laissé vide, la ligne la plus proche compte, si loin qu&apos;elle soit.</translation>
    </message>
    <message>
        <source>Farthest line that counts</source>
        <translation>Ligne la plus éloignée qui compte</translation>
    </message>
    <message>
        <source>Field with names of the zones</source>
        <translation>Champ des noms des zones</translation>
    </message>
    <message>
        <source>Field with the greatest grade of each zone</source>
        <translation>Champ de la plus grande pente de chaque zone</translation>
    </message>
    <message>
        <source>Field with the least grade of each zone</source>
        <translation>Champ de la plus petite pente de chaque zone</translation>
    </message>
    <message>
        <source>Field with the priority of each zone</source>
        <translation>Champ de la priorité de chaque zone</translation>
    </message>
    <message>
        <source>Field with the rules of each zone</source>
        <translation>Champ des règles de chaque zone</translation>
    </message>
    <message>
        <source>Forgiven</source>
        <translation>Toléré</translation>
    </message>
    <message>
        <source>Grades along or across need lines: choose the lines of travel, or judge the steepest slope.</source>
        <translation>Les pentes en long ou en travers demandent des lignes : choisissez les lignes de parcours, ou jugez la plus forte pente.</translation>
    </message>
    <message>
        <source>Grades are measured</source>
        <translation>Les pentes sont mesurées</translation>
    </message>
    <message>
        <source>Grades by zone</source>
        <translation>Pentes par zone</translation>
    </message>
    <message>
        <source>Grades that fail or nearly fail</source>
        <translation>Pentes non conformes ou de justesse conformes</translation>
    </message>
    <message>
        <source>Greatest change of grade at gutters</source>
        <translation>Plus grand changement de pente aux caniveaux</translation>
    </message>
    <message>
        <source>Greatest grade</source>
        <translation>Plus grande pente</translation>
    </message>
    <message>
        <source>Gutter lines</source>
        <translation>Lignes de caniveau</translation>
    </message>
    <message>
        <source>Holds one or several names of rules for each zone; zones where it is blank are judged by the rules for all, or else by the grades below.</source>
        <translation>Contient un ou plusieurs noms de règles pour chaque zone ; les zones où il est vide sont jugées par les règles pour toutes, ou sinon par les pentes ci-dessous.</translation>
    </message>
    <message>
        <source>It misses by no more than {near} anywhere.</source>
        <translation>Elle ne la manque nulle part de plus de {near}.</translation>
    </message>
    <message>
        <source>Joined areas with the fields: zone_id, zone, rule, measure; result (fail, near, or thin for slivers that do not count); flag (steep, just_steep, near_steep, flat, just_flat, near_flat); grade_min, grade_max, grade_mean (by area), limit_min, limit_max, over (by how much the worst place misses the limit, minus with that to spare), all in percent; area, width; x, y of the worst place; why.</source>
        <translation>Aires réunies avec les champs : zone_id, zone, rule, measure ; result (fail, near, ou thin pour les esquilles qui ne comptent pas) ; flag (steep, just_steep, near_steep, flat, just_flat, near_flat) ; grade_min, grade_max, grade_mean (pondérée par l&apos;aire), limit_min, limit_max, over (de combien le pire endroit manque la limite, négatif avec cette marge), le tout en pour cent ; area, width ; x, y du pire endroit ; why.</translation>
    </message>
    <message>
        <source>Judged pixel by pixel (Horn&apos;s rule): what is narrower than about three pixels, such as a curb, is smoothed over. Take the TIN where there is one.</source>
        <translation>Jugé pixel par pixel (règle de Horn) : ce qui est plus étroit que trois pixels environ, comme une bordure, est lissé. Prenez le TIN là où il y en a un.</translation>
    </message>
    <message>
        <source>Judges the grades of a design zone by zone, at their steepest or along and across lines, against limits of your own or named rules with their source, and shows what fails and what nearly does.</source>
        <translation>Juge les pentes d&apos;un projet zone par zone, au plus fort ou en long et en travers de lignes, d&apos;après vos limites ou des règles nommées avec leur source, et montre ce qui est non conforme et ce qui l&apos;est presque.</translation>
    </message>
    <message>
        <source>Least grade</source>
        <translation>Plus petite pente</translation>
    </message>
    <message>
        <source>Least grade for zones without a rule, such as what water needs to drain; written as the greatest one.</source>
        <translation>Plus petite pente pour les zones sans règle, comme celle qu&apos;il faut à l&apos;eau pour s&apos;écouler ; s&apos;écrit comme la plus grande.</translation>
    </message>
    <message>
        <source>Length of gutters that fails (CRS units)</source>
        <translation>Longueur de caniveau non conforme (unités du SCR)</translation>
    </message>
    <message>
        <source>Limit for zones without a rule: 2 %, 1:48 (rise to run), 1 in 20, 3:1 (run to rise); a number alone is percent. 1:48 is 2.083 %, which is neither 2 % nor 2.1 %.</source>
        <translation>Limite pour les zones sans règle : 2 %, 1:48 (hauteur pour longueur), 1 in 20, 3:1 (longueur pour hauteur) ; un nombre seul est en pour cent. 1:48 fait 2,083 %, ni 2 % ni 2,1 %.</translation>
    </message>
    <message>
        <source>Lines along edges of a TIN across which the change of grade is checked, such as the bottom of the gutter in front of curb ramps: the grade on one side less that on the other, walking straight across. With rules of the measure break it is checked where such a line meets a zone with that rule; without, all along the lines.</source>
        <translation>Lignes le long d&apos;arêtes d&apos;un TIN en travers desquelles le changement de pente est contrôlé, comme le fond du caniveau devant les abaissés de bordure : la pente d&apos;un côté moins celle de l&apos;autre, en passant tout droit. Avec des règles de mesure break, il est contrôlé là où une telle ligne rencontre une zone qui a cette règle ; sans elles, tout le long des lignes.</translation>
    </message>
    <message>
        <source>Lines of travel</source>
        <translation>Lignes de parcours</translation>
    </message>
    <message>
        <source>Lines that grades along and across are measured by: each face is seen in the direction of the nearest line at its centre. Needed for these two only. Which way a line is drawn does not matter.</source>
        <translation>Lignes d&apos;après lesquelles se mesurent les pentes en long et en travers : chaque face est vue dans la direction de la ligne la plus proche de son centre. Nécessaires pour ces deux-là seulement. Le sens du dessin d&apos;une ligne n&apos;importe pas.</translation>
    </message>
    <message>
        <source>Margin for near misses</source>
        <translation>Marge des cas de justesse</translation>
    </message>
    <message>
        <source>Names of rules, with commas between several: ada_walk_running, ada_walk_cross, ada_ramp_running, ada_ramp_cross, ada_counter_slope, ada_flare, ada_parking, prowag_route_grade, prowag_route_cross, prowag_ramp_running, prowag_gutter_break. A rule says what is measured, its limit, and where it comes from. It holds for zones without one of their own.</source>
        <translation>Noms de règles, séparés par des virgules : ada_walk_running, ada_walk_cross, ada_ramp_running, ada_ramp_cross, ada_counter_slope, ada_flare, ada_parking, prowag_route_grade, prowag_route_cross, prowag_ramp_running, prowag_gutter_break. Une règle dit ce qui est mesuré, sa limite et d&apos;où elle vient. Elle vaut pour les zones qui n&apos;en ont pas à elles.</translation>
    </message>
    <message>
        <source>Near</source>
        <translation>De justesse</translation>
    </message>
    <message>
        <source>Not checked</source>
        <translation>Non contrôlé</translation>
    </message>
    <message>
        <source>Number of verdicts that cannot be given</source>
        <translation>Nombre de verdicts impossibles à rendre</translation>
    </message>
    <message>
        <source>Number of verdicts that fail</source>
        <translation>Nombre de verdicts non conformes</translation>
    </message>
    <message>
        <source>Number of verdicts that pass</source>
        <translation>Nombre de verdicts conformes</translation>
    </message>
    <message>
        <source>Number of verdicts that pass with little to spare</source>
        <translation>Nombre de verdicts conformes de justesse</translation>
    </message>
    <message>
        <source>Numbers in percent, or texts such as 1:200; zones where it is blank get the least grade above.</source>
        <translation>Nombres en pour cent, ou textes comme 1:200 ; les zones où il est vide prennent la plus petite pente ci-dessus.</translation>
    </message>
    <message>
        <source>Numbers in percent, or texts such as 1:48; zones where it is blank get the greatest grade above.</source>
        <translation>Nombres en pour cent, ou textes comme 1:48 ; les zones où il est vide prennent la plus grande pente ci-dessus.</translation>
    </message>
    <message>
        <source>Page with the verdict on each zone, a plan, the rules with their sources, and all figures.</source>
        <translation>Page avec le verdict sur chaque zone, un plan, les règles avec leurs sources, et tous les chiffres.</translation>
    </message>
    <message>
        <source>Pass</source>
        <translation>Conforme</translation>
    </message>
    <message>
        <source>Polygons that are judged one by one. The faces of the design are cut along their borders. Left blank, the whole design is one zone. Zones in another CRS are moved to that of the design.</source>
        <translation>Polygones jugés un par un. Les faces du projet sont coupées le long de leurs limites. Laissé vide, tout le projet est une zone. Les zones dans un autre SCR sont amenées dans celui du projet.</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Rule file</source>
        <translation>Fichier de règles</translation>
    </message>
    <message>
        <source>Rules for all</source>
        <translation>Règles pour toutes</translation>
    </message>
    <message>
        <source>Steepest slope</source>
        <translation>Au plus fort de la pente</translation>
    </message>
    <message>
        <source>Summary by zone</source>
        <translation>Bilan par zone</translation>
    </message>
    <message>
        <source>TIN, face by face</source>
        <translation>TIN, face par face</translation>
    </message>
    <message>
        <source>The area is too narrow to count.</source>
        <translation>L&apos;aire est trop étroite pour compter.</translation>
    </message>
    <message>
        <source>The change of grade of {grade} misses its limit by {off}: it must be {limit}.</source>
        <translation>Le changement de pente de {grade} manque sa limite de {off} : il doit être {limit}.</translation>
    </message>
    <message>
        <source>The change of grade of {grade} passes with {off} to spare: it must be {limit}.</source>
        <translation>Le changement de pente de {grade} est conforme avec {off} de marge : il doit être {limit}.</translation>
    </message>
    <message>
        <source>The last digit of the coordinates in the file that the design came from, 0.001 for three decimals. A grade passes when it would pass with the coordinates off by half of that. Left blank, nothing but the digits of the numbers themselves is allowed for.</source>
        <translation>Le dernier chiffre des coordonnées du fichier d&apos;où vient le projet, 0.001 pour trois décimales. Une pente est conforme si elle peut l&apos;être avec des coordonnées fausses de la moitié de cela. Laissé vide, seuls les chiffres des nombres eux-mêmes sont pris en compte.</translation>
    </message>
    <message>
        <source>The raster has {count:,} pixels, more than {most:,}: clip it, or make its pixels larger.</source>
        <translation>Le raster a {count:,} pixels, plus de {most:,} : découpez-le, ou prenez des pixels plus grands.</translation>
    </message>
    <message>
        <source>The rule file holds no rule with the measure break: give the greatest change of grade at a gutter.</source>
        <translation>Le fichier de règles ne contient pas de règle de mesure break : donnez le plus grand changement de pente à un caniveau.</translation>
    </message>
    <message>
        <source>The rule file “{file}” is not UTF-8: save it as such.</source>
        <translation>Le fichier de règles « {file} » n&apos;est pas en UTF-8 : enregistrez-le ainsi.</translation>
    </message>
    <message>
        <source>The rules that come with the plugin state limits of the 2010 ADA Standards and of PROWAG (36 CFR 1190) with their sections. They are an aid: which of them apply, exceptions, and local codes are for licensed practice to decide, and what was built is for a survey to show.</source>
        <translation>Les règles de l&apos;extension énoncent des limites des ADA Standards de 2010 et de PROWAG (36 CFR 1190) avec leurs articles. Elles sont une aide : lesquelles s&apos;appliquent, leurs exceptions et les règlements locaux relèvent des professionnels habilités, et c&apos;est un levé qui montre ce qui a été construit.</translation>
    </message>
    <message>
        <source>The surface whose grades are checked: a mesh layer, a polygon layer with heights (triangles or planar faces), or a raster. Its CRS must be projected.</source>
        <translation>La surface dont les pentes sont contrôlées : une couche maillage, une couche de polygones avec altitudes (triangles ou faces planes), ou un raster. Son SCR doit être projeté.</translation>
    </message>
    <message>
        <source>The {measure} of {grade} misses its limit by {off}: it must be {limit}.</source>
        <translation>{measure} : {grade}, ce qui manque la limite de {off} ; il faut {limit}.</translation>
    </message>
    <message>
        <source>The {measure} of {grade} passes, but with {off} to spare, less than {near}: it must be {limit}.</source>
        <translation>{measure} : {grade}, ce qui est conforme, mais avec {off} de marge, moins de {near} ; il faut {limit}.</translation>
    </message>
    <message>
        <source>There is no limit: give a least or a greatest grade, a field with one, or a rule.</source>
        <translation>Il n&apos;y a pas de limite : donnez une plus petite ou une plus grande pente, un champ qui en a une, ou une règle.</translation>
    </message>
    <message>
        <source>There is no rule “{name}”: the rules are {names}.</source>
        <translation>Il n&apos;y a pas de règle « {name} » : les règles sont {names}.</translation>
    </message>
    <message>
        <source>Units</source>
        <translation>Unités</translation>
    </message>
    <message>
        <source>What passes with less than this to spare is marked near, as a class of its own: it holds the limit in the design, but leaves little for building it. What fails by less is marked just, and still fails. The verdict itself forgives nothing but the rounding of coordinates.</source>
        <translation>Ce qui est conforme avec moins de marge que cela est marqué near, une classe à part : la limite est tenue dans le projet, mais il reste peu pour le construire. Ce qui la manque de moins est marqué just, et reste non conforme. Le verdict lui-même ne tolère que l&apos;arrondi des coordonnées.</translation>
    </message>
    <message>
        <source>What the least and the greatest grade hold for; rules say it themselves. The steepest slope is that of the face in any direction. All grades are judged by their size: up or down, left or right makes no difference.</source>
        <translation>Ce que visent la plus petite et la plus grande pente ; les règles le disent elles-mêmes. La plus forte pente est celle de la face dans n&apos;importe quelle direction. Toutes les pentes sont jugées par leur grandeur : monter ou descendre, à gauche ou à droite, ne change rien.</translation>
    </message>
    <message>
        <source>Where the border of a zone runs a hair beside the line it is meant to follow, a sliver of the next face lies in the zone. Such areas are told, but do not make a zone fail. Measured as mean width: twice the area over the perimeter.</source>
        <translation>Là où la limite d&apos;une zone passe un cheveu à côté de la ligne qu&apos;elle devrait suivre, une esquille de la face voisine se trouve dans la zone. De telles aires sont signalées, mais ne rendent pas une zone non conforme. Mesuré en largeur moyenne : deux fois l&apos;aire sur le périmètre.</translation>
    </message>
    <message>
        <source>Where zones overlap, the one with the lower number wins (1 before 2). Without it an overlap stops the run.</source>
        <translation>Là où des zones se recouvrent, celle de plus petit numéro l&apos;emporte (1 avant 2). Sans ce champ, un recouvrement arrête le traitement.</translation>
    </message>
    <message>
        <source>Zone {zone}: {why}</source>
        <translation>Zone {zone} : {why}</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
    <message>
        <source>at least {grade}</source>
        <translation>au moins {grade}</translation>
    </message>
    <message>
        <source>at most {grade}</source>
        <translation>au plus {grade}</translation>
    </message>
    <message>
        <source>change of grade</source>
        <translation>changement de pente</translation>
    </message>
    <message>
        <source>check,verify,grade,slope,cross slope,running slope,ADA,PROWAG,accessibility,compliance,ramp,walk,gutter,counter slope,percent,drainage</source>
        <translation>contrôle,vérifier,pente,dévers,pente en long,pente transversale,ADA,PROWAG,accessibilité,conformité,rampe,trottoir,caniveau,contre-pente,pour cent,drainage</translation>
    </message>
    <message>
        <source>cross slope</source>
        <translation>dévers</translation>
    </message>
    <message>
        <source>grade along</source>
        <translation>pente en long</translation>
    </message>
    <message>
        <source>it cannot be negative.</source>
        <translation>il ne peut pas être négatif.</translation>
    </message>
    <message>
        <source>it is a field of the zones, but there are none: choose the zones.</source>
        <translation>c&apos;est un champ des zones, mais il n&apos;y en a pas : choisissez les zones.</translation>
    </message>
    <message>
        <source>line {id}</source>
        <translation>ligne {id}</translation>
    </message>
    <message>
        <source>none</source>
        <translation>aucune</translation>
    </message>
    <message>
        <source>nothing but the last digit of the numbers themselves</source>
        <translation>rien que le dernier chiffre des nombres eux-mêmes</translation>
    </message>
    <message>
        <source>plan {plan}, heights {vertical}</source>
        <translation>plan {plan}, altitudes {vertical}</translation>
    </message>
    <message>
        <source>raster, pixel by pixel (Horn&apos;s rule)</source>
        <translation>raster, pixel par pixel (règle de Horn)</translation>
    </message>
    <message>
        <source>rounding of coordinates to {step} {unit}</source>
        <translation>arrondi des coordonnées à {step} {unit}</translation>
    </message>
    <message>
        <source>steepest slope</source>
        <translation>plus forte pente</translation>
    </message>
    <message>
        <source>zone {id}</source>
        <translation>zone {id}</translation>
    </message>
    <message>
        <source>{count} zones have no limit and are not checked: {names}.</source>
        <translation>{count} zones n&apos;ont pas de limite et ne sont pas contrôlées : {names}.</translation>
    </message>
    <message>
        <source>{label}: there is no line in it.</source>
        <translation>{label} : il n&apos;y a pas de ligne dedans.</translation>
    </message>
    <message>
        <source>{length} long</source>
        <translation>{length} de long</translation>
    </message>
    <message>
        <source>{zone}: FAILS along {length} of {whole} of gutter, where the change of grade is not {limit}; worst {worst} near {x}, {y}.</source>
        <translation>{zone} : ÉCHEC sur {length} de {whole} de caniveau, où le changement de pente n&apos;est pas {limit} ; au pire {worst} près de {x}, {y}.</translation>
    </message>
    <message>
        <source>{zone}: FAILS on {share} % of the area checked ({failed}), where the {measure} is not {limit}; worst {worst} near {x}, {y}.</source>
        <translation>{zone} : ÉCHEC sur {share} % de l&apos;aire contrôlée ({failed}), {measure} : il faut {limit} ; au pire {worst} près de {x}, {y}.</translation>
    </message>
    <message>
        <source>{zone}: passes, the change of grade at the gutter must be {limit}, and the worst is {worst} near {x}, {y}.</source>
        <translation>{zone} : conforme, le changement de pente au caniveau doit être {limit}, et le pire est de {worst} près de {x}, {y}.</translation>
    </message>
    <message>
        <source>{zone}: passes, the {measure} must be {limit}, and the worst is {worst} near {x}, {y}.</source>
        <translation>{zone} : conforme ; {measure} : il faut {limit}, au pire il y a {worst} près de {x}, {y}.</translation>
    </message>
    <message>
        <source>{zone}: passes, with less than {near} to spare: the change of grade at the gutter must be {limit}, and is {worst} near {x}, {y}.</source>
        <translation>{zone} : conforme, avec moins de {near} de marge : le changement de pente au caniveau doit être {limit}, et il est de {worst} près de {x}, {y}.</translation>
    </message>
    <message>
        <source>{zone}: passes, with less than {near} to spare: the {measure} must be {limit}, and is {worst} near {x}, {y}.</source>
        <translation>{zone} : conforme, avec moins de {near} de marge ; {measure} : il faut {limit}, il y a {worst} près de {x}, {y}.</translation>
    </message>
    <message>
        <source>{zone}: the change of grade was not checked, no gutter line follows an edge of the design there.</source>
        <translation>{zone} : le changement de pente n&apos;a pas été contrôlé, aucune ligne de caniveau n&apos;y suit une arête du projet.</translation>
    </message>
    <message>
        <source>{zone}: the {measure} was not checked, there is nothing to judge it by.</source>
        <translation>{zone} : {measure} non contrôlée, il n&apos;y a rien pour en juger.</translation>
    </message>
    <message>
        <source>{zone}: {why}</source>
        <translation>{zone} : {why}</translation>
    </message>
    <message>
        <source>Largest move of a zone border</source>
        <translation>Plus grand déplacement d&apos;une limite de zone</translation>
    </message>
    <message>
        <source>Largest move of a zone border (CRS units)</source>
        <translation>Plus grand déplacement d&apos;une limite de zone (unités du SCR)</translation>
    </message>
    <message>
        <source>Whole design</source>
        <translation>Tout le projet</translation>
    </message>
</context>
<context>
    <name>CheckSides</name>
    <message>
        <source>All {count} guidelines lie where they should.</source>
        <translation>Les {count} lignes guides sont toutes là où elles doivent être.</translation>
    </message>
    <message>
        <source>Any, but the same all along</source>
        <translation>N&apos;importe lequel, mais le même tout du long</translation>
    </message>
    <message>
        <source>As the guidelines state it</source>
        <translation>Comme l&apos;indiquent les lignes guides</translation>
    </message>
    <message>
        <source>Beside a corner a guideline rightly reaches farther out than its offset (a mitre): there the corner limit holds instead of the tolerance.</source>
        <translation>À côté d&apos;un angle, une ligne guide s&apos;éloigne à bon droit plus que son décalage (un onglet) : là, la limite d&apos;angle vaut à la place de la tolérance.</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Check sides</source>
        <translation>Contrôler les côtés</translation>
    </message>
    <message>
        <source>Checked guidelines</source>
        <translation>Lignes guides contrôlées</translation>
    </message>
    <message>
        <source>Compass side</source>
        <translation>Côté cardinal</translation>
    </message>
    <message>
        <source>Corner limit</source>
        <translation>Limite d&apos;angle</translation>
    </message>
    <message>
        <source>Distance that every guideline should keep from its line. Left blank, each guideline&apos;s own is taken from the field below, or from a field “signed_offset”; without any, only the sides are checked.</source>
        <translation>Distance que chaque ligne guide doit garder de sa ligne. Si vide, celle de chaque ligne guide est prise dans le champ ci-dessous, ou dans un champ « signed_offset » ; sans aucun, seuls les côtés sont contrôlés.</translation>
    </message>
    <message>
        <source>FAIL</source>
        <translation>ÉCHEC</translation>
    </message>
    <message>
        <source>Fail: it lies on the other side, changes sides on the way, keeps another distance, comes nearer than asked anywhere, reaches out too far at a corner, or fits another line than its own. Unclear: a part lies beyond the ends of the line, two lines fit about as well, or no line is near.</source>
        <translation>Échec : elle est de l&apos;autre côté, change de côté en route, garde une autre distance, s&apos;approche quelque part plus que demandé, s&apos;éloigne trop à un angle, ou convient à une autre ligne que la sienne. Incertain : une partie est au-delà des bouts de la ligne, deux lignes conviennent à peu près autant, ou aucune ligne n&apos;est proche.</translation>
    </message>
    <message>
        <source>Field with names of the lines</source>
        <translation>Champ des noms des lignes</translation>
    </message>
    <message>
        <source>Field with offsets</source>
        <translation>Champ des décalages</translation>
    </message>
    <message>
        <source>Field with sides</source>
        <translation>Champ des côtés</translation>
    </message>
    <message>
        <source>Field with the line of each guideline</source>
        <translation>Champ de la ligne de chaque ligne guide</translation>
    </message>
    <message>
        <source>Guideline {id}: there is no line called “{name}” or with that id in the lines, mend the field “{field}” or choose another.</source>
        <translation>Ligne guide {id} : aucune ligne ne s&apos;appelle « {name} » ni ne porte cet identifiant, corrigez le champ « {field} » ou choisissez-en un autre.</translation>
    </message>
    <message>
        <source>Guidelines</source>
        <translation>Lignes guides</translation>
    </message>
    <message>
        <source>It does not state its side.</source>
        <translation>Elle n&apos;indique pas son côté.</translation>
    </message>
    <message>
        <source>Largest error of the distance that passes, in plan, and the longest stretch on the wrong side that may be rounding.</source>
        <translation>Plus grande erreur de distance admise, en plan, et plus long tronçon du mauvais côté qui peut tenir à l&apos;arrondi.</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Lignes</translation>
    </message>
    <message>
        <source>Lines to check, made here or elsewhere. They must be in the CRS of the lines.</source>
        <translation>Lignes à contrôler, faites ici ou ailleurs. Elles doivent être dans le SCR des lignes.</translation>
    </message>
    <message>
        <source>Measures guidelines, made here or elsewhere, against the lines they were laid from, and says which lie on the wrong side, at the wrong distance or beside the wrong line.</source>
        <translation>Mesure des lignes guides, faites ici ou ailleurs, par rapport aux lignes dont elles viennent, et dit lesquelles sont du mauvais côté, à la mauvaise distance ou près de la mauvaise ligne.</translation>
    </message>
    <message>
        <source>Name of the line that each guideline belongs to, or its feature id. Left blank, a field “source_id” is used if there is one; without it each guideline belongs to the line it fits best.</source>
        <translation>Nom de la ligne à laquelle appartient chaque ligne guide, ou son identifiant. Si vide, un champ « source_id » est pris s&apos;il existe ; sinon chaque ligne guide appartient à la ligne qui lui convient le mieux.</translation>
    </message>
    <message>
        <source>No guideline states its side: choose the side asked for, a field with sides, or “Any, but the same all along”.</source>
        <translation>Aucune ligne guide n&apos;indique son côté : choisissez le côté demandé, un champ des côtés, ou « N&apos;importe lequel, mais le même tout du long ».</translation>
    </message>
    <message>
        <source>Number of guidelines that cannot be judged</source>
        <translation>Nombre de lignes guides qui ne peuvent être jugées</translation>
    </message>
    <message>
        <source>Number of guidelines that fail</source>
        <translation>Nombre de lignes guides en échec</translation>
    </message>
    <message>
        <source>Number of guidelines that pass</source>
        <translation>Nombre de lignes guides conformes</translation>
    </message>
    <message>
        <source>Offset asked for</source>
        <translation>Décalage demandé</translation>
    </message>
    <message>
        <source>Offset of each guideline, as a number or a text; a sign is left out of account.</source>
        <translation>Décalage de chaque ligne guide, en nombre ou en texte ; un signe n&apos;est pas pris en compte.</translation>
    </message>
    <message>
        <source>One point for each guideline that does not pass.</source>
        <translation>Un point pour chaque ligne guide non conforme.</translation>
    </message>
    <message>
        <source>Page with the verdict, what is wrong and where, and sketches.</source>
        <translation>Page avec le verdict, ce qui ne va pas et où, et des croquis.</translation>
    </message>
    <message>
        <source>Pass</source>
        <translation>Conforme</translation>
    </message>
    <message>
        <source>Places to look at</source>
        <translation>Endroits à regarder</translation>
    </message>
    <message>
        <source>Plan unit</source>
        <translation>Unité en plan</translation>
    </message>
    <message>
        <source>Reference</source>
        <translation>Référence</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Side and distance are measured all along each guideline, whatever way it is drawn. Left and right are those of the line, looking from its first to its last vertex.</source>
        <translation>Le côté et la distance sont mesurés tout le long de chaque ligne guide, quel que soit le sens où elle est dessinée. Gauche et droite sont celles de la ligne, vue de son premier à son dernier sommet.</translation>
    </message>
    <message>
        <source>Side asked for</source>
        <translation>Côté demandé</translation>
    </message>
    <message>
        <source>Side of each guideline in the words right and left.</source>
        <translation>Côté de chaque ligne guide par les mots right et left.</translation>
    </message>
    <message>
        <source>Surface</source>
        <translation>Surface</translation>
    </message>
    <message>
        <source>The guidelines with the fields: guideline_id, part, name; line_id, line; result (pass, fail, unclear), flag; side_asked, side (found), offset_asked, offset_min, offset_max (beside the line), offset_mean (signed: + right), corner_max (farthest corner), wrong_share (percent of the length); station_from, station_to and x, y of the place to look at; why.</source>
        <translation>Les lignes guides avec les champs : guideline_id, part, name ; line_id, line ; result (pass, fail, unclear), flag ; side_asked, side (trouvé), offset_asked, offset_min, offset_max (à côté de la ligne), offset_mean (signé : + à droite), corner_max (angle le plus éloigné), wrong_share (pour cent de la longueur) ; station_from, station_to et x, y de l&apos;endroit à regarder ; why.</translation>
    </message>
    <message>
        <source>The lines that the guidelines should have been laid from, in a projected CRS.</source>
        <translation>Les lignes dont les lignes guides doivent venir, dans un SCR projeté.</translation>
    </message>
    <message>
        <source>The wind that the side faces, for the side compass.</source>
        <translation>Le point cardinal auquel le côté fait face, pour le côté cardinal.</translation>
    </message>
    <message>
        <source>Tolerance</source>
        <translation>Tolérance</translation>
    </message>
    <message>
        <source>Unclear</source>
        <translation>Incertain</translation>
    </message>
    <message>
        <source>What the sides toward, away, inside and outside look at.</source>
        <translation>Ce que regardent les côtés vers, à l&apos;opposé, dedans et dehors.</translation>
    </message>
    <message>
        <source>What the sides uphill, downhill, steeper and flatter look at.</source>
        <translation>Ce que regardent les côtés amont, aval, plus raide et plus plat.</translation>
    </message>
    <message>
        <source>Where the guidelines should lie. “As the guidelines state it” takes the field below, or a field “side” or “signed_offset” (+ right, - left) of the guidelines. The other choices are the rules for sides of guidelines, judged anew on the lines.</source>
        <translation>Où doivent être les lignes guides. « Comme l&apos;indiquent les lignes guides » prend le champ ci-dessous, ou un champ « side » ou « signed_offset » (+ droite, - gauche) des lignes guides. Les autres choix sont les règles de côté des lignes guides, jugées à nouveau sur les lignes.</translation>
    </message>
    <message>
        <source>both sides</source>
        <translation>des deux côtés</translation>
    </message>
    <message>
        <source>check,verify,side,left,right,offset,distance,guideline,wrong side,quality</source>
        <translation>contrôler,vérifier,côté,gauche,droite,décalage,distance,ligne guide,mauvais côté,qualité</translation>
    </message>
    <message>
        <source>it must be greater than 0; the side is asked for separately.</source>
        <translation>elle doit dépasser 0 ; le côté se demande à part.</translation>
    </message>
    <message>
        <source>left</source>
        <translation>gauche</translation>
    </message>
    <message>
        <source>right</source>
        <translation>droite</translation>
    </message>
    <message>
        <source>{fail} of {count} guidelines fail, {unclear} cannot be judged, {passed} pass. Do not use those that fail before they are mended.</source>
        <translation>{fail} lignes guides sur {count} sont en échec, {unclear} ne peuvent être jugées, {passed} sont conformes. N&apos;utilisez pas celles en échec avant qu&apos;elles soient corrigées.</translation>
    </message>
    <message>
        <source>Farthest that the tip of a corner may lie from its line, in offsets, as in the mitre limit of guidelines; the ends of a tip that is cut square there may lie a little farther.</source>
        <translation>Distance maximale de la pointe d&apos;un angle à sa ligne, en décalages, comme la limite d&apos;onglet des lignes guides ; les extrémités d&apos;une pointe coupée d&apos;équerre peuvent se trouver un peu plus loin.</translation>
    </message>
</context>
<context>
    <name>Core</name>
    <message>
        <source>&apos;{text}&apos; can be run to rise or rise to run: write it as n:1 (run to rise), as 1 in n, or in percent.</source>
        <translation>« {text} » peut se lire base sur hauteur ou hauteur sur base : écrivez n:1 (base sur hauteur), 1 in n (1 pour n) ou un pourcentage.</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; cannot be read as a grade: write 3 %, 3:1 (run to rise), 1:48 or 1 in 20 (rise to run).</source>
        <translation>« {text} » ne peut pas se lire comme une pente : écrivez 3 %, 3:1 (base sur hauteur), 1:48 ou 1 in 20 (hauteur sur base).</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; cannot be read as a length: {advice}</source>
        <translation>« {text} » ne peut pas se lire comme une longueur : {advice}</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; holds no proper fraction: write it like 2 1/2 or as a decimal.</source>
        <translation>« {text} » ne contient pas de fraction correcte : écrivez-la comme 2 1/2 ou en décimales.</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a station in this job&apos;s unit ({unit}): write it like {example}.</source>
        <translation>« {text} » n&apos;est pas une abscisse dans l&apos;unité de ce travail ({unit}) : écrivez-la comme {example}.</translation>
    </message>
    <message>
        <source>&apos;{text}...&apos; is too long for one number.</source>
        <translation>« {text}... » est trop long pour un seul nombre.</translation>
    </message>
    <message>
        <source>&apos;{word}&apos; is not a known unit of length: write m, mm, cm, ft, in, usft (US survey foot) or ift (international foot).</source>
        <translation>« {word} » n&apos;est pas une unité de longueur connue : écrivez m, mm, cm, ft, in, usft (pied d&apos;arpentage américain) ou ift (pied international).</translation>
    </message>
    <message>
        <source>A corner of face {face} has no usable coordinates: repair the surface.</source>
        <translation>Un sommet de la facette {face} n&apos;a pas de coordonnées utilisables : réparez la surface.</translation>
    </message>
    <message>
        <source>A length is missing: write for example 0.2 ft, 2.4 in or 60 mm.</source>
        <translation>Il manque une longueur : écrivez par exemple 0.2 ft, 2.4 in ou 60 mm.</translation>
    </message>
    <message>
        <source>A surface needs three coordinates a vertex and three corners a face.</source>
        <translation>Une surface demande trois coordonnées par sommet et trois sommets par facette.</translation>
    </message>
    <message>
        <source>A unit of {metres} metres is no unit of length: set the job&apos;s unit.</source>
        <translation>Une unité de {metres} mètres n&apos;est pas une unité de longueur : définissez l&apos;unité du travail.</translation>
    </message>
    <message>
        <source>Face {face} names the same vertex twice: remove it from the surface.</source>
        <translation>La facette {face} cite deux fois le même sommet : retirez-la de la surface.</translation>
    </message>
    <message>
        <source>Face {face} points at a vertex that does not exist: repair the surface.</source>
        <translation>La facette {face} renvoie à un sommet qui n&apos;existe pas : réparez la surface.</translation>
    </message>
    <message>
        <source>Line {number} has a vertex without finite coordinates: mend or remove it.</source>
        <translation>La ligne {number} a un sommet sans coordonnées finies : corrigez-le ou supprimez-le.</translation>
    </message>
    <message>
        <source>Line {number} has no length: remove it or draw it again.</source>
        <translation>La ligne {number} n&apos;a pas de longueur : supprimez-la ou redessinez-la.</translation>
    </message>
    <message>
        <source>The smallest slope change must be above 0 and, as an angle, below 180 degrees.</source>
        <translation>Le plus petit changement de pente doit être supérieur à 0 et, en angle, inférieur à 180 degrés.</translation>
    </message>
    <message>
        <source>The surface has no faces.</source>
        <translation>La surface n&apos;a pas de facettes.</translation>
    </message>
    <message>
        <source>a comma between two digits can be a decimal sign, write 1.5 or separate by &apos;; &apos;.</source>
        <translation>une virgule entre deux chiffres peut être un signe décimal, écrivez 1.5 ou séparez par « ; ».</translation>
    </message>
    <message>
        <source>a comma is ambiguous, write a decimal point (0.2).</source>
        <translation>une virgule est ambiguë, écrivez un point décimal (0.2).</translation>
    </message>
    <message>
        <source>a fraction needs its unit, write 2 1/2 in or 2 1/2 ft.</source>
        <translation>une fraction demande son unité, écrivez 2 1/2 in ou 2 1/2 ft.</translation>
    </message>
    <message>
        <source>before inches the feet are whole, and inches are less than 12.</source>
        <translation>devant des pouces, les pieds sont entiers, et les pouces sont inférieurs à 12.</translation>
    </message>
    <message>
        <source>it gives more than 1000 lengths, take a larger step.</source>
        <translation>cela donne plus de 1000 longueurs, prenez un pas plus grand.</translation>
    </message>
    <message>
        <source>it has to be a finite number.</source>
        <translation>il faut un nombre fini.</translation>
    </message>
    <message>
        <source>only feet and inches can be combined (2&apos;-6&quot;).</source>
        <translation>seuls les pieds et les pouces se combinent (2&apos;-6&quot;).</translation>
    </message>
    <message>
        <source>only some of its lengths carry a unit, write it after each.</source>
        <translation>seules certaines de ses longueurs portent une unité, écrivez-la après chacune.</translation>
    </message>
    <message>
        <source>say which number is feet and which is inches (2&apos;-6&quot;).</source>
        <translation>dites quel nombre est en pieds et lequel en pouces (2&apos;-6&quot;).</translation>
    </message>
    <message>
        <source>the step of a range has to be greater than zero.</source>
        <translation>le pas d&apos;une suite doit être supérieur à zéro.</translation>
    </message>
    <message>
        <source>there is no number in it, write for example 0.2 ft.</source>
        <translation>il n&apos;y a pas de nombre, écrivez par exemple 0.2 ft.</translation>
    </message>
    <message>
        <source>write a number and its unit, for example 0.2 ft.</source>
        <translation>écrivez un nombre et son unité, par exemple 0.2 ft.</translation>
    </message>
    <message>
        <source>write a range with its step, like 1..5 step 1.</source>
        <translation>écrivez une suite avec son pas, comme 1..5 step 1.</translation>
    </message>
    <message>
        <source>write one number and its unit, for example 0.2 ft, 2.4 in, 2 1/2 in, 2&apos;-6&quot; or 60 mm.</source>
        <translation>écrivez un nombre et son unité, par exemple 0.2 ft, 2.4 in, 2 1/2 in, 2&apos;-6&quot; ou 60 mm.</translation>
    </message>
    <message>
        <source>&apos;{word}&apos; is not a finite number: correct it or export again.</source>
        <translation>« {word} » n&apos;est pas un nombre fini : corrigez-le ou exportez de nouveau.</translation>
    </message>
    <message>
        <source>&apos;{word}&apos; is not a point id (a positive whole number): correct the file.</source>
        <translation>« {word} » n&apos;est pas un identifiant de point (un entier positif) : corrigez le fichier.</translation>
    </message>
    <message>
        <source>A part of {count} faces shares no edge with the largest part of the surface.</source>
        <translation>Une partie de {count} facettes n&apos;a aucune arête commune avec la plus grande partie de la surface.</translation>
    </message>
    <message>
        <source>Face {face} is thinner in plan than two points can be told apart.</source>
        <translation>La facette {face} est plus mince en plan que la distance qui distingue deux points.</translation>
    </message>
    <message>
        <source>Face {face} rises more than 10 to 1: check that a wall is meant.</source>
        <translation>La facette {face} monte à plus de 10 pour 1 : vérifiez qu&apos;un mur est voulu.</translation>
    </message>
    <message>
        <source>Face {face} stands upright: it is kept, but has no slope and no plan area.</source>
        <translation>La facette {face} est verticale : elle est gardée, mais n&apos;a ni pente ni aire en plan.</translation>
    </message>
    <message>
        <source>Faces {one} and {other} lie over one another in plan: remove one.</source>
        <translation>Les facettes {one} et {other} se recouvrent en plan : supprimez-en une.</translation>
    </message>
    <message>
        <source>More than two faces share the edge between vertices {one} and {other}.</source>
        <translation>Plus de deux facettes partagent l&apos;arête entre les sommets {one} et {other}.</translation>
    </message>
    <message>
        <source>Polygon {id} crosses itself: repair it before it can be a surface.</source>
        <translation>Le polygone {id} se recoupe : réparez-le avant d&apos;en faire une surface.</translation>
    </message>
    <message>
        <source>Polygon {id} has corners without height: a surface needs polygons with Z.</source>
        <translation>Le polygone {id} a des sommets sans altitude : une surface demande des polygones avec Z.</translation>
    </message>
    <message>
        <source>Polygon {id} is not plane (a corner lies {off} off): split it into triangles.</source>
        <translation>Le polygone {id} n&apos;est pas plan (un sommet s&apos;en écarte de {off}) : divisez-le en triangles.</translation>
    </message>
    <message>
        <source>Polygon {id} stands upright or has no area: split it into triangles.</source>
        <translation>Le polygone {id} est vertical ou sans aire : divisez-le en triangles.</translation>
    </message>
    <message>
        <source>The corners of face {face} lie on one line: it has no area; remove it.</source>
        <translation>Les sommets de la facette {face} sont alignés : elle n&apos;a pas d&apos;aire ; supprimez-la.</translation>
    </message>
    <message>
        <source>There are no zones: give at least one polygon with a depth.</source>
        <translation>Il n&apos;y a pas de zones : donnez au moins un polygone avec une profondeur.</translation>
    </message>
    <message>
        <source>Vertex {vertex} belongs to no face.</source>
        <translation>Le sommet {vertex} n&apos;appartient à aucune facette.</translation>
    </message>
    <message>
        <source>Vertex {vertex} lies on the side of a face without being its corner: a crack.</source>
        <translation>Le sommet {vertex} est sur le côté d&apos;une facette sans en être un sommet : une fissure.</translation>
    </message>
    <message>
        <source>Vertices {one} and {other} lie in one place: faces there may not be joined.</source>
        <translation>Les sommets {one} et {other} sont au même endroit : les facettes peuvent n&apos;y être pas jointes.</translation>
    </message>
    <message>
        <source>Zone {zone} has no depth: fill in the depth field or give a depth for all.</source>
        <translation>La zone {zone} n&apos;a pas de profondeur : remplissez le champ de profondeur ou donnez une profondeur pour toutes.</translation>
    </message>
    <message>
        <source>Zone {zone} has no geometry: draw it or delete it.</source>
        <translation>La zone {zone} n&apos;a pas de géométrie : dessinez-la ou supprimez-la.</translation>
    </message>
    <message>
        <source>Zone {zone} is not a polygon but a {kind}.</source>
        <translation>La zone {zone} n&apos;est pas un polygone mais un objet {kind}.</translation>
    </message>
    <message>
        <source>Zone {zone} is not a valid polygon ({reason}): mend its outline, then run again.</source>
        <translation>La zone {zone} n&apos;est pas un polygone valide ({reason}) : corrigez son contour, puis relancez.</translation>
    </message>
    <message>
        <source>Zones {first} and {second} overlap by {area} square units near {x}, {y}: trim one of them, or give a priority field (the lower number wins).</source>
        <translation>Les zones {first} et {second} se recouvrent de {area} unités carrées près de {x}, {y} : rognez l&apos;une d&apos;elles, ou donnez un champ de priorité (le plus petit nombre l&apos;emporte).</translation>
    </message>
    <message>
        <source>Zones {first} and {second} overlap near {x}, {y} and have the same priority {priority}: give one of them a lower number to let it win.</source>
        <translation>Les zones {first} et {second} se recouvrent près de {x}, {y} et ont la même priorité {priority} : donnez à l&apos;une un nombre plus petit pour qu&apos;elle l&apos;emporte.</translation>
    </message>
    <message>
        <source>Zones {first} and {second} overlap near {x}, {y} and one of them has no priority: fill in the priority field (the lower number wins).</source>
        <translation>Les zones {first} et {second} se recouvrent près de {x}, {y} et l&apos;une d&apos;elles n&apos;a pas de priorité : remplissez le champ de priorité (le plus petit nombre l&apos;emporte).</translation>
    </message>
    <message>
        <source>a chain needs the names of two or more points: add them.</source>
        <translation>une chaîne demande les noms d&apos;au moins deux points : ajoutez-les.</translation>
    </message>
    <message>
        <source>a document type declaration is not allowed in LandXML, as it can hide harmful entities: remove it.</source>
        <translation>une déclaration de type de document n&apos;est pas admise en LandXML, car elle peut cacher des entités nuisibles : retirez-la.</translation>
    </message>
    <message>
        <source>a face of a TIN needs three point ids, but holds {count}: correct the file.</source>
        <translation>une facette de TIN demande trois identifiants de point, mais en contient {count} : corrigez le fichier.</translation>
    </message>
    <message>
        <source>a line needs two points, but here is one: remove the line.</source>
        <translation>une ligne demande deux points, mais il n&apos;y en a qu&apos;un : supprimez la ligne.</translation>
    </message>
    <message>
        <source>a point is northing, easting and perhaps elevation, but here are {count} numbers: correct the file.</source>
        <translation>un point est nord, est et parfois altitude, mais il y a ici {count} nombres : corrigez le fichier.</translation>
    </message>
    <message>
        <source>a reference to another file is not followed: remove it.</source>
        <translation>un renvoi à un autre fichier n&apos;est pas suivi : retirez-le.</translation>
    </message>
    <message>
        <source>a spiral needs its length: add it.</source>
        <translation>une clothoïde demande sa longueur : ajoutez-la.</translation>
    </message>
    <message>
        <source>a spiral of this length and these radii ends {gap} from the End point; it is stretched to it.</source>
        <translation>une clothoïde de cette longueur et de ces rayons finit à {gap} du point End ; elle est étirée jusqu&apos;à lui.</translation>
    </message>
    <message>
        <source>a station equation needs staInternal and staAhead: add them.</source>
        <translation>une équation d&apos;abscisses demande staInternal et staAhead : ajoutez-les.</translation>
    </message>
    <message>
        <source>all its faces are vertical or lie on one line or in one point, so there is no surface to work with: export it again.</source>
        <translation>toutes ses facettes sont verticales, alignées ou réduites à un point, il n&apos;y a donc pas de surface exploitable : exportez-la de nouveau.</translation>
    </message>
    <message>
        <source>an entity declaration is not allowed in LandXML: remove it.</source>
        <translation>une déclaration d&apos;entité n&apos;est pas admise en LandXML : retirez-la.</translation>
    </message>
    <message>
        <source>commas stand between the coordinates, where LandXML has blanks; they are read as separators.</source>
        <translation>des virgules séparent les coordonnées là où LandXML met des espaces ; elles sont lues comme séparateurs.</translation>
    </message>
    <message>
        <source>face {ids} names a point that the surface does not hold ({count} such faces): correct the file, or have such faces left out.</source>
        <translation>la facette {ids} cite un point que la surface ne contient pas ({count} facettes de ce genre) : corrigez le fichier ou faites omettre ces facettes.</translation>
    </message>
    <message>
        <source>its faces come in {count} lists, which are read as one.</source>
        <translation>ses facettes viennent en {count} listes, lues comme une seule.</translation>
    </message>
    <message>
        <source>its radii are too small for its length: correct them.</source>
        <translation>ses rayons sont trop petits pour sa longueur : corrigez-les.</translation>
    </message>
    <message>
        <source>linearUnit=&apos;{word}&apos; is not a unit of LandXML (meter, foot, USSurveyFoot, ...): correct it.</source>
        <translation>linearUnit=&apos;{word}&apos; n&apos;est pas une unité de LandXML (meter, foot, USSurveyFoot, ...) : corrigez-la.</translation>
    </message>
    <message>
        <source>no arc of radius {radius} joins a start and an end that are {span} apart: correct its points or radius.</source>
        <translation>aucun arc de rayon {radius} ne joint un début et une fin distants de {span} : corrigez ses points ou son rayon.</translation>
    </message>
    <message>
        <source>pntRef=&apos;{name}&apos; may be the point of line {first} or of line {second}: give them different names.</source>
        <translation>pntRef=&apos;{name}&apos; peut être le point de la ligne {first} ou de la ligne {second} : donnez-leur des noms différents.</translation>
    </message>
    <message>
        <source>pntRef=&apos;{name}&apos; names no point of this file that has coordinates: add it or export again.</source>
        <translation>pntRef=&apos;{name}&apos; ne désigne aucun point de ce fichier qui ait des coordonnées : ajoutez-le ou exportez de nouveau.</translation>
    </message>
    <message>
        <source>point id {id} was already given to another place in line {line}: correct the file.</source>
        <translation>l&apos;identifiant de point {id} a déjà été donné à un autre endroit à la ligne {line} : corrigez le fichier.</translation>
    </message>
    <message>
        <source>point {id} needs northing, easting and elevation, but holds {count} numbers: correct the file.</source>
        <translation>le point {id} demande nord, est et altitude, mais contient {count} nombres : corrigez le fichier.</translation>
    </message>
    <message>
        <source>rot=&apos;{word}&apos; must be cw or ccw: add it.</source>
        <translation>rot=&apos;{word}&apos; doit être cw ou ccw : ajoutez-le.</translation>
    </message>
    <message>
        <source>spirals of type &apos;{type}&apos; are not read ({known} are): export the alignment with one of these, or leave out the alignments.</source>
        <translation>les raccordements de type « {type} » ne sont pas lus ({known} le sont) : exportez l&apos;axe avec l&apos;un de ceux-ci, ou omettez les axes.</translation>
    </message>
    <message>
        <source>the PI lies {gap} beside the direction in which the spiral starts: check rot, the radii and the PI.</source>
        <translation>le PI est à {gap} à côté de la direction de départ de la clothoïde : vérifiez rot, les rayons et le PI.</translation>
    </message>
    <message>
        <source>the centre is {first} from the start and {last} from the end, so this is no arc: correct its points.</source>
        <translation>le centre est à {first} du début et à {last} de la fin, ce n&apos;est donc pas un arc : corrigez ses points.</translation>
    </message>
    <message>
        <source>the centre is {first} from the start and {last} from the end; the arc runs through both.</source>
        <translation>le centre est à {first} du début et à {last} de la fin ; l&apos;arc passe par les deux.</translation>
    </message>
    <message>
        <source>the commas may be decimal commas or separators, and LandXML wants decimal points and blanks: export the file again.</source>
        <translation>les virgules peuvent être décimales ou séparer, et LandXML veut des points décimaux et des espaces : exportez de nouveau le fichier.</translation>
    </message>
    <message>
        <source>the file declares length={declared}, but the elements add up to {computed}: check that none is missing.</source>
        <translation>le fichier déclare length={declared}, mais la somme des éléments fait {computed} : vérifiez qu&apos;il n&apos;en manque pas.</translation>
    </message>
    <message>
        <source>the file declares {attribute}={declared}, but the visible faces have {area}: check that the surface is complete.</source>
        <translation>le fichier déclare {attribute}={declared}, mais les facettes visibles font {area} : vérifiez que la surface est complète.</translation>
    </message>
    <message>
        <source>the file declares {name}={declared}, but the points give {computed}: check rot and the points.</source>
        <translation>le fichier déclare {name}={declared}, mais les points donnent {computed} : vérifiez rot et les points.</translation>
    </message>
    <message>
        <source>the point &apos;{name}&apos; it refers to has no elevation: give it one.</source>
        <translation>le point « {name} » auquel il renvoie n&apos;a pas d&apos;altitude : donnez-lui-en une.</translation>
    </message>
    <message>
        <source>the spiral ends where it starts: correct its points.</source>
        <translation>la clothoïde finit où elle commence : corrigez ses points.</translation>
    </message>
    <message>
        <source>the {tag} point is missing: add it.</source>
        <translation>le point {tag} manque : ajoutez-le.</translation>
    </message>
    <message>
        <source>this alignment has no lines, curves or spirals and is left out: export it with its geometry.</source>
        <translation>cet axe n&apos;a ni droites, ni courbes, ni clothoïdes et est omis : exportez-le avec sa géométrie.</translation>
    </message>
    <message>
        <source>this arc has neither a Center nor a radius: add one.</source>
        <translation>cet arc n&apos;a ni Center ni rayon : ajoutez l&apos;un des deux.</translation>
    </message>
    <message>
        <source>this element of a line&apos;s geometry is not known, and without it there would be a gap: export the line as lines, curves and spirals.</source>
        <translation>cet élément de la géométrie d&apos;une ligne n&apos;est pas connu, et sans lui il y aurait un trou : exportez la ligne en droites, courbes et clothoïdes.</translation>
    </message>
    <message>
        <source>this element starts {gap} away from the end of the one before; the line is given in parts.</source>
        <translation>cet élément commence à {gap} de la fin du précédent ; la ligne est donnée en parties.</translation>
    </message>
    <message>
        <source>this is not a LandXML file: choose one that starts with LandXML.</source>
        <translation>ce n&apos;est pas un fichier LandXML : choisissez-en un qui commence par LandXML.</translation>
    </message>
    <message>
        <source>this line holds no point list (PntList2D or PntList3D): add it.</source>
        <translation>cette ligne ne contient pas de liste de points (PntList2D ou PntList3D) : ajoutez-la.</translation>
    </message>
    <message>
        <source>this point has neither coordinates nor a pntRef: correct the file.</source>
        <translation>ce point n&apos;a ni coordonnées ni pntRef : corrigez le fichier.</translation>
    </message>
    <message>
        <source>this point has no id: correct the file.</source>
        <translation>ce point n&apos;a pas d&apos;identifiant : corrigez le fichier.</translation>
    </message>
    <message>
        <source>this surface has a second definition, and it is not clear which one counts: keep one.</source>
        <translation>cette surface a une seconde définition, et rien ne dit laquelle compte : gardez-en une.</translation>
    </message>
    <message>
        <source>two different linear units are given ({units}): keep one.</source>
        <translation>deux unités linéaires différentes sont données ({units}) : gardez-en une.</translation>
    </message>
    <message>
        <source>{attribute}=&apos;{word}&apos; is none of LandXML&apos;s ({known}); the line is read with that type.</source>
        <translation>{attribute}=&apos;{word}&apos; n&apos;est pas de LandXML ({known}) ; la ligne est lue avec ce type.</translation>
    </message>
    <message>
        <source>{count} faces are nearly vertical (over {percent} percent): check whether they are walls or wrong points.</source>
        <translation>{count} facettes sont presque verticales (plus de {percent} pour cent) : vérifiez si ce sont des murs ou des points faux.</translation>
    </message>
    <message>
        <source>{count} faces are vertical or without area; they are kept, and have no slope.</source>
        <translation>{count} facettes sont verticales ou sans aire ; elles sont gardées, et n&apos;ont pas de pente.</translation>
    </message>
    <message>
        <source>{count} faces name a point twice, have no area and are left out; this is the first.</source>
        <translation>{count} facettes citent deux fois un point, sont sans aire et sont omises ; voici la première.</translation>
    </message>
    <message>
        <source>{count} faces name points that the surface does not hold and are left out, so the surface has holes there; the first is {ids}.</source>
        <translation>{count} facettes citent des points que la surface ne contient pas et sont omises, la surface y a donc des trous ; la première est {ids}.</translation>
    </message>
    <message>
        <source>{count} numbers do not make up points of {dimension} each: correct the list.</source>
        <translation>{count} nombres ne forment pas des points de {dimension} chacun : corrigez la liste.</translation>
    </message>
    <message>
        <source>{count} points are given twice, at the same place; this is the first.</source>
        <translation>{count} points sont donnés deux fois, au même endroit ; voici le premier.</translation>
    </message>
    <message>
        <source>{count} points of surface &apos;{name}&apos; are in none of its faces, so they are not in the surface; they are given as points.</source>
        <translation>{count} points de la surface « {name} » ne sont dans aucune de ses facettes, donc pas dans la surface ; ils sont donnés comme points.</translation>
    </message>
    <message>
        <source>{count} such places in all; the first {listed} are listed.</source>
        <translation>{count} endroits de ce genre en tout ; les {listed} premiers sont listés.</translation>
    </message>
    <message>
        <source>{file} cannot be read ({reason}): check the path.</source>
        <translation>{file} ne peut pas être lu ({reason}) : vérifiez le chemin.</translation>
    </message>
    <message>
        <source>{file} does not say its linear unit: make sure which one it is.</source>
        <translation>{file} ne dit pas son unité linéaire : assurez-vous de laquelle il s&apos;agit.</translation>
    </message>
    <message>
        <source>{file} holds no surface called &apos;{name}&apos;; it holds: {names}.</source>
        <translation>{file} ne contient pas de surface nommée « {name} » ; il contient : {names}.</translation>
    </message>
    <message>
        <source>{file} holds {count} surfaces called &apos;{name}&apos; (lines {lines}): rename them in the file.</source>
        <translation>{file} contient {count} surfaces nommées « {name} » (lignes {lines}) : renommez-les dans le fichier.</translation>
    </message>
    <message>
        <source>{file} holds {count} surfaces; say which one to read by its name: {names}.</source>
        <translation>{file} contient {count} surfaces ; dites par son nom laquelle lire : {names}.</translation>
    </message>
    <message>
        <source>{file} is in a character encoding that cannot be read ({reason}): save it as UTF-8.</source>
        <translation>{file} est dans un codage de caractères illisible ({reason}) : enregistrez-le en UTF-8.</translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: this is not well-formed XML ({reason}); the file may be cut short: export it again.</source>
        <translation>{file}, ligne {line}, colonne {column} : ce n&apos;est pas du XML bien formé ({reason}) ; le fichier est peut-être tronqué : exportez-le de nouveau.</translation>
    </message>
    <message>
        <source>{file}, line {line}, {path}: {what}</source>
        <translation>{file}, ligne {line}, {path} : {what}</translation>
    </message>
    <message>
        <source>{file}, line {line}: {count} lines have points without elevation, and are given none; this is the first.</source>
        <translation>{file}, ligne {line} : {count} lignes ont des points sans altitude, et n&apos;en reçoivent pas ; voici la première.</translation>
    </message>
    <message>
        <source>{file}, line {line}: {count} lines have the elevation 0 throughout, which may stand for &apos;not given&apos;; this is the first.</source>
        <translation>{file}, ligne {line} : {count} lignes ont partout l&apos;altitude 0, ce qui peut vouloir dire « non donnée » ; voici la première.</translation>
    </message>
    <message>
        <source>{name} is missing: give it, INF for straight.</source>
        <translation>{name} manque : donnez-le, INF pour une droite.</translation>
    </message>
    <message>
        <source>{name}=&apos;{word}&apos; is not a number: correct it.</source>
        <translation>{name}=&apos;{word}&apos; n&apos;est pas un nombre : corrigez-le.</translation>
    </message>
    <message>
        <source>{file}, line {line}: surface &apos;{name}&apos; holds no visible faces: export it with its triangles, or leave out the TIN and the faces.</source>
        <translation>{file}, ligne {line} : la surface « {name} » ne contient pas de facettes visibles : exportez-la avec ses triangles, ou omettez le TIN et les facettes.</translation>
    </message>
    <message>
        <source>{file}, line {line}: surface &apos;{name}&apos; is a grid surface, and only TIN surfaces are read: export it as a TIN, or leave out the TIN and the faces.</source>
        <translation>{file}, ligne {line} : la surface « {name} » est une grille, et seules les surfaces TIN sont lues : exportez-la en TIN, ou omettez le TIN et les facettes.</translation>
    </message>
    <message>
        <source>Both candidates lie inside the reference areas along {missing:.0%} of the line: it is not at their border, so say right or left.</source>
        <translation>Les deux candidates sont dans les zones de référence sur {missing:.0%} de la ligne : elle n&apos;est pas à leur bord, dites donc droite ou gauche.</translation>
    </message>
    <message>
        <source>Neither candidate lies inside a reference area along {missing:.0%} of the line: check the offset and the areas, or say right or left.</source>
        <translation>Aucune candidate n&apos;est dans une zone de référence sur {missing:.0%} de la ligne : vérifiez la distance et les zones, ou dites droite ou gauche.</translation>
    </message>
    <message>
        <source>References on both sides are about equally near along {missing:.0%} of the line: choose one reference or say right or left.</source>
        <translation>Des références des deux côtés sont à peu près aussi proches sur {missing:.0%} de la ligne : choisissez une seule référence ou dites droite ou gauche.</translation>
    </message>
    <message>
        <source>The line runs along that wind for {missing:.0%} of its length, so neither side faces it: choose another wind or say right or left.</source>
        <translation>La ligne suit cette direction cardinale sur {missing:.0%} de sa longueur, aucun côté n&apos;y fait donc face : choisissez-en une autre ou dites droite ou gauche.</translation>
    </message>
    <message>
        <source>The line turns so far that no one side faces that way ({share:.0%} of its length says {side}, {contrary:.0%} the other): split it or say right or left.</source>
        <translation>La ligne tourne tant qu&apos;aucun côté ne fait face à cette direction ({share:.0%} de sa longueur dit {side}, {contrary:.0%} l&apos;autre) : coupez-la ou dites droite ou gauche.</translation>
    </message>
    <message>
        <source>The reference crosses the line at {x:.2f}, {y:.2f}, so it lies on both sides: split the line there or say right or left.</source>
        <translation>La référence croise la ligne en {x:.2f}, {y:.2f}, elle est donc des deux côtés : coupez-y la ligne ou dites droite ou gauche.</translation>
    </message>
    <message>
        <source>The reference lies beyond an open end of the line, where it has no side, for {missing:.0%} of the length: extend the line or say right or left.</source>
        <translation>La référence est au-delà d&apos;une extrémité ouverte de la ligne, où il n&apos;y a pas de côté, sur {missing:.0%} de la longueur : prolongez la ligne ou dites droite ou gauche.</translation>
    </message>
    <message>
        <source>The reference touches, covers or overlaps {missing:.0%} of the line: choose another reference, or inside or outside, or say right or left.</source>
        <translation>La référence touche, couvre ou recouvre {missing:.0%} de la ligne : choisissez une autre référence, ou l&apos;intérieur ou l&apos;extérieur, ou dites droite ou gauche.</translation>
    </message>
    <message>
        <source>The side changes along the line ({share:.0%} of its length says {side}, {contrary:.0%} the other): split the line near {x:.2f}, {y:.2f} or say right or left.</source>
        <translation>Le côté change le long de la ligne ({share:.0%} de sa longueur dit {side}, {contrary:.0%} l&apos;autre) : coupez la ligne près de {x:.2f}, {y:.2f} ou dites droite ou gauche.</translation>
    </message>
    <message>
        <source>The surface falls on both sides along {missing:.0%} of the line: say right or left.</source>
        <translation>La surface descend des deux côtés sur {missing:.0%} de la ligne : dites droite ou gauche.</translation>
    </message>
    <message>
        <source>The surface is equally steep on both sides along {missing:.0%} of the line: say right or left.</source>
        <translation>La surface est aussi raide des deux côtés sur {missing:.0%} de la ligne : dites droite ou gauche.</translation>
    </message>
    <message>
        <source>The surface is flat across {missing:.0%} of the line, so no side is uphill: say right or left.</source>
        <translation>La surface est plate en travers sur {missing:.0%} de la ligne, aucun côté n&apos;est donc en amont : dites droite ou gauche.</translation>
    </message>
    <message>
        <source>The surface is missing on a side of {missing:.0%} of the line: extend it or say right or left.</source>
        <translation>La surface manque d&apos;un côté sur {missing:.0%} de la ligne : prolongez-la ou dites droite ou gauche.</translation>
    </message>
    <message>
        <source>The surface rises on both sides along {missing:.0%} of the line: say right or left.</source>
        <translation>La surface monte des deux côtés sur {missing:.0%} de la ligne : dites droite ou gauche.</translation>
    </message>
    <message>
        <source>left</source>
        <translation>gauche</translation>
    </message>
    <message>
        <source>right</source>
        <translation>droite</translation>
    </message>
    <message>
        <source>&apos;{word}&apos; is too large for a coordinate: correct it.</source>
        <translation>« {word} » est trop grand pour une coordonnée : corrigez-le.</translation>
    </message>
    <message>
        <source>At {count} edges of the design, the first near {x:.3f}, {y:.3f}, more than two faces meet: the surface is not single there, check the design.</source>
        <translation>À {count} arêtes du projet, la première près de {x:.3f}, {y:.3f}, plus de deux facettes se rencontrent : la surface n&apos;y est pas unique, vérifiez le projet.</translation>
    </message>
    <message>
        <source>At {count} short stretches, the first near {x:.3f}, {y:.3f}, the step between depths had to run less than {run:g} in plan (least {least:.2g}), because faces of the design are small there.</source>
        <translation>Sur {count} courts tronçons, le premier près de {x:.3f}, {y:.3f}, la marche entre profondeurs a dû prendre moins de {run:g} en plan (au moins {least:.2g}), car les facettes du projet y sont petites.</translation>
    </message>
    <message>
        <source>L</source>
        <translation>G</translation>
    </message>
    <message>
        <source>LEFT</source>
        <translation>GAUCHE</translation>
    </message>
    <message>
        <source>No zone meets the design, so that nothing is left of it: check that both have the same coordinate reference system.</source>
        <translation>Aucune zone ne rencontre le projet, il n&apos;en reste donc rien : vérifiez que les deux ont le même système de coordonnées de référence.</translation>
    </message>
    <message>
        <source>R</source>
        <translation>D</translation>
    </message>
    <message>
        <source>RIGHT</source>
        <translation>DROITE</translation>
    </message>
    <message>
        <source>The distance or the side of this piece could not be proved: check it by hand, and report the line.</source>
        <translation>La distance ou le côté de ce morceau n&apos;a pas pu être prouvé : vérifiez-le à la main, et signalez la ligne.</translation>
    </message>
    <message>
        <source>The line bends more tightly than {distance} between stations {start} and {stop}: the guideline goes on in one corner, up to {farthest} away from the line.</source>
        <translation>La ligne tourne plus serré que {distance} entre les abscisses {start} et {stop} : la ligne guide continue par un seul angle, jusqu&apos;à {farthest} de la ligne.</translation>
    </message>
    <message>
        <source>There is no guideline {distance} from the line between stations {start} and {stop}: the line bends too tightly there, crosses itself or comes back too near to itself.</source>
        <translation>Il n&apos;y a pas de ligne guide à {distance} de la ligne entre les abscisses {start} et {stop} : la ligne y tourne trop serré, se recoupe ou revient trop près d&apos;elle-même.</translation>
    </message>
    <message>
        <source>Zone {zone} has no effect: zones with a lower priority number, or deeper ones whose bottoms carry on, take all of it.</source>
        <translation>La zone {zone} est sans effet : des zones de plus petit numéro de priorité, ou de plus profondes dont le fond se prolonge, la prennent toute.</translation>
    </message>
    <message>
        <source>Zone {zone} lies wholly off the design: nothing was lowered for it.</source>
        <translation>La zone {zone} est tout entière hors du projet : rien n&apos;a été abaissé pour elle.</translation>
    </message>
    <message>
        <source>Zone {zone} runs past the design: {off:.4g} of its {area:.4g} square units have no design and no result.</source>
        <translation>La zone {zone} dépasse le projet : {off:.4g} de ses {area:.4g} unités carrées n&apos;ont ni projet ni résultat.</translation>
    </message>
    <message>
        <source>anticlockwise</source>
        <translation>dans le sens inverse des aiguilles d&apos;une montre</translation>
    </message>
    <message>
        <source>clockwise</source>
        <translation>dans le sens des aiguilles d&apos;une montre</translation>
    </message>
    <message>
        <source>east</source>
        <translation>est</translation>
    </message>
    <message>
        <source>from its first to its last vertex</source>
        <translation>de son premier à son dernier sommet</translation>
    </message>
    <message>
        <source>from its last to its first vertex</source>
        <translation>de son dernier à son premier sommet</translation>
    </message>
    <message>
        <source>inside</source>
        <translation>l&apos;intérieur</translation>
    </message>
    <message>
        <source>north</source>
        <translation>nord</translation>
    </message>
    <message>
        <source>north-east</source>
        <translation>nord-est</translation>
    </message>
    <message>
        <source>north-west</source>
        <translation>nord-ouest</translation>
    </message>
    <message>
        <source>outside</source>
        <translation>l&apos;extérieur</translation>
    </message>
    <message>
        <source>south</source>
        <translation>sud</translation>
    </message>
    <message>
        <source>south-east</source>
        <translation>sud-est</translation>
    </message>
    <message>
        <source>south-west</source>
        <translation>sud-ouest</translation>
    </message>
    <message>
        <source>varies</source>
        <translation>variable</translation>
    </message>
    <message>
        <source>west</source>
        <translation>ouest</translation>
    </message>
    <message>
        <source>{count} faces of the design, the first near {x:.3f}, {y:.3f}, are upright or have no area: they were kept, and belong to the zone of a neighbour.</source>
        <translation>{count} facettes du projet, la première près de {x:.3f}, {y:.3f}, sont verticales ou sans aire : elles ont été gardées, et appartiennent à la zone d&apos;une voisine.</translation>
    </message>
    <message>
        <source>{count} slits between zones, at most {width:.2g} wide, were given to a zone beside them: let the zones share their borders.</source>
        <translation>{count} fentes entre zones, larges de {width:.2g} au plus, ont été données à une zone voisine : faites partager leurs bords aux zones.</translation>
    </message>
    <message>
        <source>{offset} to the {side} of &apos;{name}&apos;, seen driving {there}; {other} driving {back}</source>
        <translation>{offset} à {side} de « {name} », vu en roulant ({there}) ; {other} en roulant ({back})</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; cannot be read as a batter: write run to rise, like 1.5:1, 1 1/2:1 or 1.5, or 0 for upright.</source>
        <translation>«&#xa0;{text}&#xa0;» ne se lit pas comme un talus&#xa0;: écrivez base sur hauteur, comme 1.5:1, 1 1/2:1 ou 1.5, ou 0 pour vertical.</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is a side of {run:g}:1, flatter than any that is dug: write run to rise, like 1.5:1.</source>
        <translation>«&#xa0;{text}&#xa0;» est un talus de {run:g}:1, plus doux que tout ce qui se creuse&#xa0;: écrivez base sur hauteur, comme 1.5:1.</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is negative, but a side runs outward as it climbs: write run to rise like 1.5:1, or 0 for upright.</source>
        <translation>«&#xa0;{text}&#xa0;» est négatif, mais un talus s&apos;écarte en montant&#xa0;: écrivez base sur hauteur comme 1.5:1, ou 0 pour vertical.</translation>
    </message>
    <message>
        <source>At {count} places a batter’s plane could not be cut in, because the piece there is too small to be told from rounding: the surface is whole, but off by as much.</source>
        <translation>À {count} endroits, le plan d&apos;un talus n&apos;a pas pu être découpé, car le morceau y est trop petit pour être distingué des arrondis&#xa0;: la surface est entière, mais fausse d&apos;autant.</translation>
    </message>
    <message>
        <source>At {count} points no single place keeps the thickness below all faces (more than three planes meet there, or the border of a zone holds the point): it is off by up to {residual:.4g}, most near {x:.3f}, {y:.3f}; check the thickness there.</source>
        <translation>En {count} points, aucune position ne garde l&apos;épaisseur sous toutes les facettes (plus de trois plans s&apos;y rencontrent, ou le bord d&apos;une zone retient le point)&#xa0;: l&apos;écart va jusqu&apos;à {residual:.4g}, le plus grand près de {x:.3f}, {y:.3f}&#xa0;; vérifiez-y l&apos;épaisseur.</translation>
    </message>
    <message>
        <source>At {count} points, the first near {x:.3f}, {y:.3f}, faces would have folded over one another at this thickness: the points were held back and the thickness is not kept there, check it.</source>
        <translation>En {count} points, le premier près de {x:.3f}, {y:.3f}, des facettes se seraient repliées l&apos;une sur l&apos;autre à cette épaisseur&#xa0;: les points ont été retenus et l&apos;épaisseur n&apos;y est pas gardée, vérifiez-la.</translation>
    </message>
    <message>
        <source>Nothing is read from these columns of the schedule: {columns}. Known ones are {known}.</source>
        <translation>Rien n&apos;est lu dans ces colonnes du tableau des structures : {columns}. Celles connues sont {known}.</translation>
    </message>
    <message>
        <source>Outside all zones a surface comes above the one over it, by a volume of {volume:.3g} cubic units in all, because sides above are flatter than those of a wider floor below: let the batter count from the design, or make the sides below as flat.</source>
        <translation>Hors de toutes les zones, une surface passe au-dessus de celle qui la recouvre, d&apos;un volume de {volume:.3g} unités cubes en tout, parce que des talus du haut sont plus doux que ceux d&apos;un fond plus large en dessous : comptez les talus à partir du projet, ou adoucissez autant ceux du dessous.</translation>
    </message>
    <message>
        <source>Row {row} of the schedule (section “{section}”) has the order {order}, but no row has {missing}: number the courses 1, 2, 3 downwards without a gap.</source>
        <translation>La ligne {row} du tableau (structure « {section} ») a le rang {order}, mais aucune n&apos;a le rang {missing} : numérotez les couches 1, 2, 3 vers le bas sans lacune.</translation>
    </message>
    <message>
        <source>Row {row} of the schedule (section “{section}”): {why}</source>
        <translation>Ligne {row} du tableau (structure « {section} ») : {why}</translation>
    </message>
    <message>
        <source>Row {row} of the schedule names no section: fill in the section.</source>
        <translation>La ligne {row} du tableau ne nomme aucune structure : remplissez la colonne section.</translation>
    </message>
    <message>
        <source>Rows {first} and {second} of the schedule (section “{section}”) have the same order {order}: number the courses 1, 2, 3 downwards.</source>
        <translation>Les lignes {first} et {second} du tableau (structure « {section} ») ont le même rang {order} : numérotez les couches 1, 2, 3 vers le bas.</translation>
    </message>
    <message>
        <source>The design has {count} cracks, where a corner lies on the side of a face without being joined to it, the first near {x:.3f}, {y:.3f}: the result gapes there too; repair the design first.</source>
        <translation>Le projet a {count} fissures, où un sommet se trouve sur le côté d&apos;une facette sans lui être joint, la première près de {x:.3f}, {y:.3f}&#xa0;: le résultat y bâille aussi&#xa0;; réparez d&apos;abord le projet.</translation>
    </message>
    <message>
        <source>The design has {count} pairs of faces that lie over one another in plan, the first near {x:.3f}, {y:.3f}: depths and volumes are wrong there; repair the design first.</source>
        <translation>Le projet a {count} paires de facettes l&apos;une sur l&apos;autre en plan, la première près de {x:.3f}, {y:.3f}&#xa0;: profondeurs et volumes y sont faux&#xa0;; réparez d&apos;abord le projet.</translation>
    </message>
    <message>
        <source>The schedule has no column “{column}”: it needs {needed}, and has {has}.</source>
        <translation>Le tableau n&apos;a pas de colonne « {column} » : il lui faut {needed}, et il a {has}.</translation>
    </message>
    <message>
        <source>The schedule has no rows: give one row for each course.</source>
        <translation>Le tableau n&apos;a pas de lignes : donnez une ligne par couche.</translation>
    </message>
    <message>
        <source>The side of zone {zone} does not reach the surface before the edge of the design, at {count} faces, the first near {x:.3f}, {y:.3f}: carry the design on past its edge, or take a steeper batter.</source>
        <translation>Le talus de la zone {zone} n&apos;atteint pas la surface avant le bord du projet, à {count} facettes, la première près de {x:.3f}, {y:.3f}&#xa0;: prolongez le projet au-delà de son bord, ou prenez un talus plus raide.</translation>
    </message>
    <message>
        <source>Zone {zone} ends at the edge of the design over {length:.4g} of its outline, near {x:.3f}, {y:.3f}: it has no side there; carry the design on past its edge to get one.</source>
        <translation>La zone {zone} finit au bord du projet sur {length:.4g} de son contour, près de {x:.3f}, {y:.3f}&#xa0;: elle n&apos;y a pas de talus&#xa0;; prolongez le projet au-delà de son bord pour en avoir un.</translation>
    </message>
    <message>
        <source>Zone {zone} is of the section “{section}”, which the schedule lacks: add rows for it, or name one of: {sections}.</source>
        <translation>La zone {zone} a la structure « {section} », qui manque au tableau : ajoutez ses lignes, ou nommez l&apos;une de : {sections}.</translation>
    </message>
    <message>
        <source>Zone {zone} is to be widened by {width}: give 0 or more, a bottom can only carry on outward.</source>
        <translation>La zone {zone} doit être élargie de {width}&#xa0;: donnez 0 ou plus, un fond ne se prolonge que vers l&apos;extérieur.</translation>
    </message>
    <message>
        <source>Zone {zone} names no section: fill in its section field.</source>
        <translation>La zone {zone} ne nomme aucune structure : remplissez son champ.</translation>
    </message>
    <message>
        <source>Zone {zone}: at “{course}” a surface comes above the one over it, by a volume of {volume:.3g} cubic units in all, because sides above are flatter than those of a wider floor below: let the batter count from the design, or make the sides below as flat.</source>
        <translation>Zone {zone} : à « {course} », une surface passe au-dessus de celle qui la recouvre, d&apos;un volume de {volume:.3g} unités cubes en tout, parce que des talus du haut sont plus doux que ceux d&apos;un fond plus large en dessous : comptez les talus à partir du projet, ou adoucissez autant ceux du dessous.</translation>
    </message>
    <message>
        <source>course {order}</source>
        <translation>couche {order}</translation>
    </message>
    <message>
        <source>the density “{value}” cannot be read: write 2.35 (tonnes per cubic metre), 2350 kg/m3 or 145 lb/ft3.</source>
        <translation>la masse volumique « {value} » est illisible : écrivez 2.35 (tonnes par mètre cube), 2350 kg/m3 ou 145 lb/ft3.</translation>
    </message>
    <message>
        <source>the density “{value}” is {density:g} tonnes per cubic metre, which nothing is: write the number with its unit, like 145 lb/ft3.</source>
        <translation>la masse volumique « {value} » fait {density:g} tonnes par mètre cube, ce qui n&apos;existe pas : écrivez le nombre avec son unité, comme 145 lb/ft3.</translation>
    </message>
    <message>
        <source>the order is missing, number the courses 1, 2, 3 downwards.</source>
        <translation>le rang manque, numérotez les couches 1, 2, 3 vers le bas.</translation>
    </message>
    <message>
        <source>the order “{value}” is no whole number from 1, number the courses 1, 2, 3 downwards.</source>
        <translation>le rang « {value} » n&apos;est pas un entier à partir de 1, numérotez les couches 1, 2, 3 vers le bas.</translation>
    </message>
    <message>
        <source>the swell “{value}” is no factor from 1 to 3: write 1.25 where the loose volume is a quarter more.</source>
        <translation>le foisonnement « {value} » n&apos;est pas un facteur de 1 à 3 : écrivez 1.25 si le volume foisonné est d&apos;un quart plus grand.</translation>
    </message>
    <message>
        <source>the thickness is missing, fill it in.</source>
        <translation>l&apos;épaisseur manque, remplissez-la.</translation>
    </message>
    <message>
        <source>the thickness rule “{value}” is not known: write plumb (vertical) or square (at right angles to the design).</source>
        <translation>la règle d&apos;épaisseur « {value} » est inconnue : écrivez plumb (à la verticale) ou square (perpendiculairement au projet).</translation>
    </message>
    <message>
        <source>the thickness “{value}” is not greater than zero.</source>
        <translation>l&apos;épaisseur « {value} » n&apos;est pas plus grande que zéro.</translation>
    </message>
    <message>
        <source>the widening “{value}” is negative: a course may be narrower than the one below it, but not than its zone.</source>
        <translation>l&apos;élargissement « {value} » est négatif : une couche peut être plus étroite que celle du dessous, mais pas que sa zone.</translation>
    </message>
    <message>
        <source>{column}: {why}</source>
        <translation>{column} : {why}</translation>
    </message>
    <message>
        <source>No zone is of these sections of the schedule: {sections}. Check that no zone is missing.</source>
        <translation>Aucune zone n&apos;a ces structures du tableau : {sections}. Vérifiez qu&apos;il ne manque pas de zone.</translation>
    </message>
    <message>
        <source>At {count} corners the planes beside each other do not meet and were blended; they are farthest apart at {x:.2f}, {y:.2f}, by {apart:.3f}.</source>
        <translation>En {count} coins, les plans voisins ne se rejoignent pas et ont été raccordés ; l&apos;écart est le plus grand en {x:.2f}, {y:.2f} : {apart:.3f}.</translation>
    </message>
    <message>
        <source>At {x:.2f}, {y:.2f} borders are only {width:.3f} apart, less than twice the distance of {distance:.3f}: the extension stops short of the middle between them.</source>
        <translation>En {x:.2f}, {y:.2f}, des bords ne sont distants que de {width:.3f}, moins de deux fois la distance de {distance:.3f} : le prolongement s&apos;arrête avant le milieu.</translation>
    </message>
    <message>
        <source>Line {line} runs along no edge of the surface and picked nothing.</source>
        <translation>La ligne {line} ne suit aucune arête de la surface et n&apos;a rien choisi.</translation>
    </message>
    <message>
        <source>No edge of the surface runs along the lines that pick edges: draw them along the border, or allow a greater distance.</source>
        <translation>Aucune arête de la surface ne suit les lignes qui choisissent les arêtes : tracez-les le long du bord, ou admettez un écart plus grand.</translation>
    </message>
    <message>
        <source>The design was carried on with its slope by up to {distance:.4g} past its edge, below {area:.4g} square units of the result, first near {x:.3f}, {y:.3f}: check that its slope does go on there.</source>
        <translation>Le projet a été prolongé selon sa pente jusqu&apos;à {distance:.4g} au-delà de son bord, sous {area:.4g} unités carrées du résultat, d&apos;abord près de {x:.3f}, {y:.3f}&#xa0;: vérifiez que sa pente y continue bien.</translation>
    </message>
    <message>
        <source>The distance to extend by must be greater than zero.</source>
        <translation>La distance de prolongement doit être supérieure à zéro.</translation>
    </message>
    <message>
        <source>The rule “given grade” needs a grade.</source>
        <translation>La règle « pente donnée » demande une pente.</translation>
    </message>
    <message>
        <source>The surface has no border that could be carried on.</source>
        <translation>La surface n&apos;a aucun bord à prolonger.</translation>
    </message>
    <message>
        <source>There is no room beyond {count} edges of the border, the first at {x:.2f}, {y:.2f}: they were not carried on.</source>
        <translation>Il n&apos;y a pas de place au-delà de {count} arêtes du bord, la première en {x:.2f}, {y:.2f} : elles n&apos;ont pas été prolongées.</translation>
    </message>
    <message>
        <source>{count} border faces stand upright, are steeper than 10 to 1 or too thin to have a slope, the first at {x:.2f}, {y:.2f}: beyond them the extension is level.</source>
        <translation>{count} facettes du bord sont verticales, plus raides que 10 pour 1 ou trop minces pour avoir une pente, la première en {x:.2f}, {y:.2f} : au-delà, le prolongement est de niveau.</translation>
    </message>
    <message>
        <source>Zones drawn onto the border of a neighbour that they nearly met: {count}, by {move:.2g} at most, near {x:.3f}, {y:.3f}: let the zones share their borders.</source>
        <translation>Zones ramenées sur le bord d&apos;une voisine qu&apos;elles touchaient presque : {count}, de {move:.2g} au plus, près de {x:.3f}, {y:.3f} : faites partager leurs bords aux zones.</translation>
    </message>
    <message>
        <source>Equally long pieces of this chain run against each other, so that none sets the direction: turn one of them by hand.</source>
        <translation>Des tronçons de même longueur de cette chaîne vont en sens contraires, aucun ne donne donc le sens : retournez-en un à la main.</translation>
    </message>
    <message>
        <source>References that run in different directions are about equally near along {missing:.0%} of the line: choose one reference, or turn the line by hand.</source>
        <translation>Des références de sens différents sont à peu près aussi proches sur {missing:.0%} de la ligne : choisissez une référence, ou retournez la ligne à la main.</translation>
    </message>
    <message>
        <source>The line crosses itself or doubles back, so that it goes round both ways ({share:.0%} one way): split it, or turn it by hand.</source>
        <translation>La ligne se recoupe ou revient sur elle-même et tourne donc dans les deux sens ({share:.0%} dans l&apos;un) : coupez-la, ou retournez-la à la main.</translation>
    </message>
    <message>
        <source>The line falls and rises ({share:.0%} of its length one way, {contrary:.0%} the other): split it near {x:.2f}, {y:.2f}, or turn it by hand.</source>
        <translation>La ligne descend et monte ({share:.0%} de sa longueur dans un sens, {contrary:.0%} dans l&apos;autre) : coupez-la près de {x:.2f}, {y:.2f}, ou retournez-la à la main.</translation>
    </message>
    <message>
        <source>The line is closed, so that it ends at the height where it starts: turn it clockwise or anticlockwise.</source>
        <translation>La ligne est fermée et finit donc à l&apos;altitude où elle commence : orientez-la dans le sens horaire ou antihoraire.</translation>
    </message>
    <message>
        <source>The line is closed, so that it has no bearing: turn it clockwise or anticlockwise.</source>
        <translation>La ligne est fermée et n&apos;a donc pas de gisement : orientez-la dans le sens horaire ou antihoraire.</translation>
    </message>
    <message>
        <source>The line is level for {missing:.0%} of its length: turn it by a bearing, or by hand.</source>
        <translation>La ligne est de niveau sur {missing:.0%} de sa longueur : orientez-la par un gisement, ou à la main.</translation>
    </message>
    <message>
        <source>The line is open and does not clearly go round (it turns by {turned:.0f}° in all): turn it by a bearing, or by hand.</source>
        <translation>La ligne est ouverte et ne fait pas clairement un tour (elle tourne de {turned:.0f}° en tout) : orientez-la par un gisement, ou à la main.</translation>
    </message>
    <message>
        <source>The line lies beyond the ends of the reference for {missing:.0%} of its length: extend the reference, or turn the line by a bearing.</source>
        <translation>La ligne se trouve au-delà des extrémités de la référence sur {missing:.0%} de sa longueur : prolongez la référence, ou orientez la ligne par un gisement.</translation>
    </message>
    <message>
        <source>The line runs square to the bearing for {missing:.0%} of its length: choose another bearing, or turn it by hand.</source>
        <translation>La ligne est perpendiculaire au gisement sur {missing:.0%} de sa longueur : choisissez un autre gisement, ou retournez-la à la main.</translation>
    </message>
    <message>
        <source>The line runs square to the reference for {missing:.0%} of its length, so that neither way is up-station: turn it by a bearing, or by hand.</source>
        <translation>La ligne est perpendiculaire à la référence sur {missing:.0%} de sa longueur, aucun sens n&apos;y suit les abscisses croissantes : orientez-la par un gisement, ou à la main.</translation>
    </message>
    <message>
        <source>The line runs up-station for {share:.0%} of its length and down-station for {contrary:.0%}: split it near {x:.2f}, {y:.2f}, or turn it by hand.</source>
        <translation>La ligne suit les abscisses croissantes sur {share:.0%} de sa longueur et décroissantes sur {contrary:.0%} : coupez-la près de {x:.2f}, {y:.2f}, ou retournez-la à la main.</translation>
    </message>
    <message>
        <source>The line turns so far that {share:.0%} of its length runs one way and {contrary:.0%} the other: split it near {x:.2f}, {y:.2f}, or turn it by hand.</source>
        <translation>La ligne tourne tant que {share:.0%} de sa longueur va dans un sens et {contrary:.0%} dans l&apos;autre : coupez-la près de {x:.2f}, {y:.2f}, ou retournez-la à la main.</translation>
    </message>
    <message>
        <source>The lines called “{name}” run in different directions ({count} of {total} run against the others, the first near {x:.2f}, {y:.2f}), so right and left are not one side of them: give them one direction first, or choose a side that looks at the ground.</source>
        <translation>Les lignes appelées « {name} » vont dans des sens différents ({count} sur {total} vont à contresens, la première près de {x:.2f}, {y:.2f}), la droite et la gauche n&apos;en sont donc pas un seul côté : donnez-leur d&apos;abord un même sens, ou choisissez un côté qui se lit sur le terrain.</translation>
    </message>
    <message>
        <source>There are no heights along {missing:.0%} of the line: choose a surface, or turn the line by hand.</source>
        <translation>Il n&apos;y a pas d&apos;altitudes sur {missing:.0%} de la ligne : choisissez une surface, ou retournez la ligne à la main.</translation>
    </message>
    <message>
        <source>There is no surface under {missing:.0%} of the line: extend the surface, or turn the line by hand.</source>
        <translation>Il n&apos;y a pas de surface sous {missing:.0%} de la ligne : prolongez la surface, ou retournez la ligne à la main.</translation>
    </message>
    <message>
        <source>Equally long pieces run against each other, so that none sets the direction: the joined line runs as the greater part of its length did; look at it, and turn it by hand.</source>
        <translation>Des tronçons de même longueur vont en sens contraires, aucun ne donne donc le sens : la ligne jointe va dans le sens de la plus grande partie de sa longueur ; vérifiez-la, et retournez-la à la main.</translation>
    </message>
    <message>
        <source>It was joined in the direction of its longest piece.</source>
        <translation>Elle a été jointe dans le sens de son tronçon le plus long.</translation>
    </message>
    <message>
        <source>Lines {ids} meet at {x:.2f}, {y:.2f} and none of them clearly goes on in another, so each ends there.</source>
        <translation>Les lignes {ids} se rencontrent en {x:.2f}, {y:.2f} et aucune ne se prolonge clairement dans une autre, chacune s&apos;y arrête donc.</translation>
    </message>
    <message>
        <source>Lines {one} and {other} meet at {x:.2f}, {y:.2f} with different heights ({low} and {high}), so they were not joined: mend a height, or allow for a greater difference.</source>
        <translation>Les lignes {one} et {other} se rencontrent en {x:.2f}, {y:.2f} à des altitudes différentes ({low} et {high}) et n&apos;ont donc pas été jointes : corrigez une altitude, ou admettez un écart plus grand.</translation>
    </message>
    <message>
        <source>none</source>
        <translation>aucune</translation>
    </message>
    <message>
        <source>All of it lies to the {wrong} of &apos;{name}&apos;, where the {side} is asked: it was laid on the wrong side.</source>
        <translation>Elle est tout entière à {wrong} de « {name} », alors que {side} est demandé : elle a été posée du mauvais côté.</translation>
    </message>
    <message>
        <source>At a corner near station {from} it reaches {high} from &apos;{name}&apos;, farther than the corner limit allows at {asked}.</source>
        <translation>À un angle près de l&apos;abscisse {from}, elle s&apos;éloigne à {high} de « {name} », plus que la limite d&apos;angle ne permet à {asked}.</translation>
    </message>
    <message>
        <source>It fits &apos;{other}&apos; about as well as &apos;{name}&apos;: name its line in a field.</source>
        <translation>Elle convient à « {other} » à peu près aussi bien qu&apos;à « {name} » : nommez sa ligne dans un champ.</translation>
    </message>
    <message>
        <source>It fits &apos;{other}&apos; and not &apos;{name}&apos;, from which it lies {low} to {high} away: it was laid from the wrong line, or carries the wrong name.</source>
        <translation>Elle convient à « {other} » et non à « {name} », dont elle est à {low} à {high} : elle a été posée depuis la mauvaise ligne, ou porte le mauvais nom.</translation>
    </message>
    <message>
        <source>It lies on both sides of &apos;{name}&apos;: it changes sides near station {from}.</source>
        <translation>Elle est des deux côtés de « {name} » : elle change de côté près de l&apos;abscisse {from}.</translation>
    </message>
    <message>
        <source>It lies {low} to {high} from &apos;{name}&apos;, where {asked} is asked; the worst place is at station {from}.</source>
        <translation>Elle est à {low} à {high} de « {name} », alors que {asked} est demandé ; le pire endroit est à l&apos;abscisse {from}.</translation>
    </message>
    <message>
        <source>No line is near enough to have it laid from: check the lines, or name its line in a field.</source>
        <translation>Aucune ligne n&apos;est assez proche pour qu&apos;elle en vienne : vérifiez les lignes, ou nommez sa ligne dans un champ.</translation>
    </message>
    <message>
        <source>{share} of its length lies beyond the ends of &apos;{name}&apos; or on it, where it has no side: extend the line, or look at that part.</source>
        <translation>{share} de sa longueur est au-delà des bouts de « {name} » ou dessus, où il n&apos;y a pas de côté : prolongez la ligne, ou regardez cette partie.</translation>
    </message>
    <message>
        <source>{share} of its length lies to the {wrong} of &apos;{name}&apos;, where the {side} is asked, between stations {from} and {to}: it changes sides.</source>
        <translation>{share} de sa longueur est à {wrong} de « {name} », alors que {side} est demandé, entre les abscisses {from} et {to} : elle change de côté.</translation>
    </message>
    <message>
        <source>The line bends too tightly for its taper: lay it in parts, or with a constant offset.</source>
        <translation>La ligne tourne trop serré pour son décalage progressif : posez-la par parties, ou avec un décalage constant.</translation>
    </message>
    <message>
        <source>The raster has no three neighbouring pixels with heights.</source>
        <translation>Le raster n&apos;a pas trois pixels voisins avec une altitude.</translation>
    </message>
    <message>
        <source>Differences from {least:.3f} to {most:.3f} in bands of {interval:.3g} are {count:.0f} bands: choose an interval that makes {limit} at most.</source>
        <translation>Des écarts de {least:.3f} à {most:.3f} par tranches de {interval:.3g} font {count:.0f} tranches : choisissez un intervalle qui en donne {limit} au plus.</translation>
    </message>
    <message>
        <source>“{name}” has {count} pairs of faces that lie over one another in plan, the first near {x:.3f}, {y:.3f}: areas and volumes count twice there; repair it first.</source>
        <translation>« {name} » a {count} paires de faces superposées en plan, la première près de {x:.3f}, {y:.3f} : aires et volumes y comptent deux fois ; réparez-la d&apos;abord.</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is negative, but grades are judged by their size: write it without a sign.</source>
        <translation>&apos;{text}&apos; est négatif, mais les pentes sont jugées par leur grandeur : écrivez-le sans signe.</translation>
    </message>
    <message>
        <source>For {area:,.2f} square units the verdict hangs on which place of the lines is meant, because the lines turn beside a face or two lines are about as near: look at them one by one.</source>
        <translation>Pour {area:,.2f} unités carrées, le verdict dépend de l&apos;endroit des lignes que l&apos;on entend, parce que les lignes tournent à côté d&apos;une face ou que deux lignes sont à peu près aussi proches : regardez-les une par une.</translation>
    </message>
    <message>
        <source>The rule file “{file}” has no column “{column}”: its first line must name {columns}.</source>
        <translation>Le fichier de règles « {file} » n&apos;a pas de colonne « {column} » : sa première ligne doit nommer {columns}.</translation>
    </message>
    <message>
        <source>The rule file “{file}” holds no rule.</source>
        <translation>Le fichier de règles « {file} » ne contient aucune règle.</translation>
    </message>
    <message>
        <source>The rule file “{file}”, line {line}: {why}</source>
        <translation>Le fichier de règles « {file} », ligne {line} : {why}</translation>
    </message>
    <message>
        <source>The surface covers {area:,.2f} square units of the zone twice: mend the faces that lie over one another.</source>
        <translation>La surface couvre deux fois {area:,.2f} unités carrées de la zone : réparez les faces qui se recouvrent.</translation>
    </message>
    <message>
        <source>a change of grade has a greatest value, not a least: fill in max.</source>
        <translation>un changement de pente a une plus grande valeur, pas une plus petite : remplissez max.</translation>
    </message>
    <message>
        <source>the least grade {least} is above the greatest {most}: change one of them.</source>
        <translation>la plus petite pente {least} dépasse la plus grande {most} : changez l&apos;une des deux.</translation>
    </message>
    <message>
        <source>the name “{name}” stands twice.</source>
        <translation>le nom « {name} » y figure deux fois.</translation>
    </message>
    <message>
        <source>the rule has no name.</source>
        <translation>la règle n&apos;a pas de nom.</translation>
    </message>
    <message>
        <source>there is neither a least nor a greatest grade: give one of them.</source>
        <translation>il n&apos;y a ni plus petite ni plus grande pente : donnez l&apos;une des deux.</translation>
    </message>
    <message>
        <source>{area:,.2f} square units lie past the end of the nearest line, where its last direction was taken: carry the line on if that is not meant.</source>
        <translation>{area:,.2f} unités carrées se trouvent au-delà du bout de la ligne la plus proche, où sa dernière direction a été prise : prolongez la ligne si ce n&apos;est pas voulu.</translation>
    </message>
    <message>
        <source>{area:,.2f} square units of the zone ({share:.2g} %) lie where the surface has no grade: nothing is known there.</source>
        <translation>{area:,.2f} unités carrées de la zone ({share:.2g} %) se trouvent là où la surface n&apos;a pas de pente : on n&apos;en sait rien.</translation>
    </message>
    <message>
        <source>{area:,.2f} square units were not checked because no line is near enough: draw one there, or allow a greater distance.</source>
        <translation>{area:,.2f} unités carrées n&apos;ont pas été contrôlées parce qu&apos;aucune ligne n&apos;est assez proche : dessinez-en une, ou admettez une plus grande distance.</translation>
    </message>
    <message>
        <source>{count} areas that fail are too narrow to count ({area:,.3g} square units in all), the largest near {x:.3f}, {y:.3f}: see whether the border of the zone runs beside the line it is meant to follow.</source>
        <translation>{count} aires non conformes sont trop étroites pour compter ({area:,.3g} unités carrées en tout), la plus grande près de {x:.3f}, {y:.3f} : voyez si la limite de la zone passe à côté de la ligne qu&apos;elle devrait suivre.</translation>
    </message>
    <message>
        <source>{count} faces stand upright and have no grade: they were not judged.</source>
        <translation>{count} faces sont verticales et n&apos;ont pas de pente : elles n&apos;ont pas été jugées.</translation>
    </message>
    <message>
        <source>{count} gutter lines do not follow edges of the surface all along (of line {line} {share:.0f} %): there the surface has no break below the line, or the line lies beside it.</source>
        <translation>{count} lignes de caniveau ne suivent pas partout des arêtes de la surface (de la ligne {line}, {share:.0f} %) : la surface n&apos;y a pas de rupture sous la ligne, ou la ligne est à côté.</translation>
    </message>
    <message>
        <source>“{value}” is no measure: write one of {words}.</source>
        <translation>« {value} » n&apos;est pas une mesure : écrivez l&apos;une de {words}.</translation>
    </message>
    <message>
        <source>No part of a guideline is {distance} from the whole line, stations {start} to {stop}: it bends too tightly or comes back too near to itself for that offset.</source>
        <translation>Aucune partie d&apos;une ligne guide n&apos;est à {distance} de toute la ligne, abscisses {start} à {stop} : elle tourne trop serré ou revient trop près d&apos;elle-même pour ce décalage.</translation>
    </message>
    <message>
        <source>A piece of {area} (faces: {count}) shares no edge with the largest piece of the surface.</source>
        <translation>Un morceau de {area} (faces : {count}) ne partage aucune arête avec le plus grand morceau de la surface.</translation>
    </message>
    <message>
        <source>All heights are 0.</source>
        <translation>Toutes les altitudes sont nulles.</translation>
    </message>
    <message>
        <source>Ask in which unit the file was written and read it again in that unit, then check the distance between two known points.</source>
        <translation>Demandez dans quelle unité le fichier a été écrit et relisez-le dans cette unité, puis vérifiez la distance entre deux points connus.</translation>
    </message>
    <message>
        <source>Ask the designer which foot it is and check one known point before staking.</source>
        <translation>Demandez au concepteur de quel pied il s&apos;agit et vérifiez un point connu avant d&apos;implanter.</translation>
    </message>
    <message>
        <source>Check that a wall or a curb is meant.</source>
        <translation>Vérifiez qu&apos;un mur ou une bordure est voulu.</translation>
    </message>
    <message>
        <source>Close it if the ground goes on there; leave it if nothing is to be built from this surface there.</source>
        <translation>Fermez-le si le terrain continue là ; laissez-le si rien ne doit y être construit d&apos;après cette surface.</translation>
    </message>
    <message>
        <source>Compare a height with a benchmark; where the unit is another one, set “Unit of heights” or convert the heights.</source>
        <translation>Comparez une altitude avec un repère ; si l&apos;unité est autre, réglez « Unité des altitudes » ou convertissez les altitudes.</translation>
    </message>
    <message>
        <source>Compare the height with the plan; correct the point or remove it.</source>
        <translation>Comparez l&apos;altitude avec le plan ; corrigez le point ou supprimez-le.</translation>
    </message>
    <message>
        <source>Coordinates are in {unit}; were they made in {other}, the design would lie {shift:.2f} {symbol} off ({x:.2f} in easting, {y:.2f} in northing).</source>
        <translation>Les coordonnées sont en {unit} ; si elles avaient été faites en {other}, le projet serait décalé de {shift:.2f} {symbol} ({x:.2f} en est, {y:.2f} en nord).</translation>
    </message>
    <message>
        <source>Crack</source>
        <translation>Fente</translation>
    </message>
    <message>
        <source>Cut it off: give the surface an outline, or delete the face.</source>
        <translation>Coupez-la : donnez un contour à la surface, ou supprimez la face.</translation>
    </message>
    <message>
        <source>Draw a zone there if one is meant.</source>
        <translation>Dessinez-y une zone si elle est voulue.</translation>
    </message>
    <message>
        <source>Easting and northing swapped</source>
        <translation>Est et nord échangés</translation>
    </message>
    <message>
        <source>Edge of more than two faces</source>
        <translation>Arête de plus de deux faces</translation>
    </message>
    <message>
        <source>Face without area</source>
        <translation>Face sans aire</translation>
    </message>
    <message>
        <source>Faces lie over one another on {area} ({count} pairs, the first are faces {one} and {other}).</source>
        <translation>Des faces se superposent sur {area} ({count} paires, la première : faces {one} et {other}).</translation>
    </message>
    <message>
        <source>Faces over one another</source>
        <translation>Faces superposées</translation>
    </message>
    <message>
        <source>Faces thinner in plan than two points can be told apart, {width} ({count}, the first is face {face}).</source>
        <translation>Faces plus minces en plan que l&apos;écart où deux points se distinguent, {width} ({count}, la première est la face {face}).</translation>
    </message>
    <message>
        <source>Faces without area ({count}, the first is face {face}): their corners lie on one line.</source>
        <translation>Faces sans aire ({count}, la première est la face {face}) : leurs sommets sont sur une droite.</translation>
    </message>
    <message>
        <source>Find out which CRS the designer worked in, set it for the layer, and check a known point before anything is staked.</source>
        <translation>Cherchez dans quel SCR le concepteur a travaillé, donnez-le à la couche et vérifiez un point connu avant toute implantation.</translation>
    </message>
    <message>
        <source>Find out which height is right and remove the other; where a wall is meant, set its foot off by some millimetres.</source>
        <translation>Cherchez quelle altitude est juste et supprimez l&apos;autre ; si un mur est voulu, décalez son pied de quelques millimètres.</translation>
    </message>
    <message>
        <source>Gap between zones</source>
        <translation>Vide entre zones</translation>
    </message>
    <message>
        <source>Give the low point an outlet (a grade, an inlet, a drain) or say that water is meant to stand there.</source>
        <translation>Donnez une issue au point bas (une pente, un avaloir, un drain) ou indiquez que l&apos;eau doit y stagner.</translation>
    </message>
    <message>
        <source>Go back to the file with the heights: they were lost on the way.</source>
        <translation>Revenez au fichier qui contient les altitudes : elles se sont perdues en route.</translation>
    </message>
    <message>
        <source>Ground without a zone</source>
        <translation>Terrain sans zone</translation>
    </message>
    <message>
        <source>Heights in another unit</source>
        <translation>Altitudes dans une autre unité</translation>
    </message>
    <message>
        <source>Hole</source>
        <translation>Trou</translation>
    </message>
    <message>
        <source>Isolated piece</source>
        <translation>Morceau isolé</translation>
    </message>
    <message>
        <source>It covers {count} low points.</source>
        <translation>Elle couvre {count} points bas.</translation>
    </message>
    <message>
        <source>It is meant to stand there.</source>
        <translation>Elle est destinée à y stagner.</translation>
    </message>
    <message>
        <source>Join it to the rest, or take it out if it belongs to another job.</source>
        <translation>Joignez-le au reste, ou retirez-le s&apos;il appartient à un autre chantier.</translation>
    </message>
    <message>
        <source>Keep one of the points and join the faces there.</source>
        <translation>Gardez un des points et joignez-y les faces.</translation>
    </message>
    <message>
        <source>Keep the two faces of the surface and remove the others.</source>
        <translation>Gardez les deux faces de la surface et supprimez les autres.</translation>
    </message>
    <message>
        <source>Leave it if a wall is meant; a machine cannot follow it, so set its foot off by some millimetres.</source>
        <translation>Laissez-la si un mur est voulu ; une machine ne peut la suivre, décalez donc son pied de quelques millimètres.</translation>
    </message>
    <message>
        <source>Let the zones share their border.</source>
        <translation>Faites partager leur bord aux zones.</translation>
    </message>
    <message>
        <source>Long skinny face at the edge</source>
        <translation>Face longue et mince au bord</translation>
    </message>
    <message>
        <source>Long skinny faces at the edge of the design ({count}), {length} long on {area}: they bridge a bay of its outline.</source>
        <translation>Faces longues et minces au bord du projet ({count}), {length} de long sur {area} : elles franchissent un creux de son contour.</translation>
    </message>
    <message>
        <source>More than two faces share the edge between points {one} and {other}.</source>
        <translation>Plus de deux faces partagent l&apos;arête entre les points {one} et {other}.</translation>
    </message>
    <message>
        <source>No heights</source>
        <translation>Pas d&apos;altitudes</translation>
    </message>
    <message>
        <source>Nothing, if that is what is meant.</source>
        <translation>Rien, si c&apos;est ce qui est voulu.</translation>
    </message>
    <message>
        <source>Nothing, if the point was left out on purpose; else triangulate again with it.</source>
        <translation>Rien, si le point a été laissé de côté exprès ; sinon, retriangulez avec lui.</translation>
    </message>
    <message>
        <source>Outside the area of the CRS</source>
        <translation>Hors du domaine du SCR</translation>
    </message>
    <message>
        <source>Plan in another unit</source>
        <translation>Plan dans une autre unité</translation>
    </message>
    <message>
        <source>Point without a face</source>
        <translation>Point sans face</translation>
    </message>
    <message>
        <source>Point {number} belongs to no face.</source>
        <translation>Le point {number} n&apos;appartient à aucune face.</translation>
    </message>
    <message>
        <source>Point {number} lies on the side of a face without being its corner.</source>
        <translation>Le point {number} est sur le côté d&apos;une face sans en être un sommet.</translation>
    </message>
    <message>
        <source>Point {number} lies {off} below the plane of its neighbours, which keep to it within about {spread}.</source>
        <translation>Le point {number} est à {off} sous le plan de ses voisins, qui s&apos;y tiennent à {spread} près environ.</translation>
    </message>
    <message>
        <source>Point {number} stands {off} above the plane of its neighbours, which keep to it within about {spread}.</source>
        <translation>Le point {number} est à {off} au-dessus du plan de ses voisins, qui s&apos;y tiennent à {spread} près environ.</translation>
    </message>
    <message>
        <source>Points {one} and {other} lie in one place at one height: faces there may not be joined.</source>
        <translation>Les points {one} et {other} sont au même endroit, à la même altitude : les faces n&apos;y sont peut-être pas jointes.</translation>
    </message>
    <message>
        <source>Points {one} and {other} lie in one place in plan, {apart} apart in height: one is wrong, or the surface is torn.</source>
        <translation>Les points {one} et {other} sont au même endroit en plan, avec {apart} d&apos;écart en altitude : l&apos;un est faux, ou la surface est déchirée.</translation>
    </message>
    <message>
        <source>Pond</source>
        <translation>Mare</translation>
    </message>
    <message>
        <source>Read the file again with easting and northing exchanged.</source>
        <translation>Relisez le fichier en échangeant est et nord.</translation>
    </message>
    <message>
        <source>Remove one of the points that lie so close together.</source>
        <translation>Supprimez un des points si proches.</translation>
    </message>
    <message>
        <source>Remove the face.</source>
        <translation>Supprimez la face.</translation>
    </message>
    <message>
        <source>Remove the faces that do not belong to this surface: a depth or a volume counts them twice.</source>
        <translation>Supprimez les faces qui n&apos;appartiennent pas à cette surface : une profondeur ou un volume les compte deux fois.</translation>
    </message>
    <message>
        <source>Sliver face</source>
        <translation>Face filiforme</translation>
    </message>
    <message>
        <source>Spike</source>
        <translation>Pic</translation>
    </message>
    <message>
        <source>Split the long face at the vertex, or triangulate again with the points of both sides.</source>
        <translation>Divisez la longue face au sommet, ou retriangulez avec les points des deux côtés.</translation>
    </message>
    <message>
        <source>Steep face</source>
        <translation>Face raide</translation>
    </message>
    <message>
        <source>The design lies outside the area that {crs} is made for, and inside it if its coordinates are in {other} and not in {unit}, with easting and northing exchanged.</source>
        <translation>Le projet est hors du domaine d&apos;emploi de {crs}, et dedans si ses coordonnées sont en {other} et non en {unit}, avec est et nord échangés.</translation>
    </message>
    <message>
        <source>The design lies outside the area that {crs} is made for, and inside it if its coordinates are in {other} and not in {unit}.</source>
        <translation>Le projet est hors du domaine d&apos;emploi de {crs}, et dedans si ses coordonnées sont en {other} et non en {unit}.</translation>
    </message>
    <message>
        <source>The design lies outside the area that {crs} is made for, and inside it with easting and northing exchanged.</source>
        <translation>Le projet est hors du domaine d&apos;emploi de {crs}, et dedans avec est et nord échangés.</translation>
    </message>
    <message>
        <source>The design lies outside the area that {crs} is made for.</source>
        <translation>Le projet est hors du domaine d&apos;emploi de {crs}.</translation>
    </message>
    <message>
        <source>The heights look too large for the plan: faces rise {slope:.0f} % on average, and the relief is {relief} on {extent}; heights may be in a smaller unit than {unit} (feet on a plan in metres make slopes 3.28 times as steep).</source>
        <translation>Les altitudes semblent trop grandes pour le plan : les faces montent de {slope:.0f} % en moyenne, et le relief est de {relief} sur {extent} ; les altitudes sont peut-être dans une unité plus petite que les {unit} (des pieds sur un plan en mètres rendent les pentes 3,28 fois plus raides).</translation>
    </message>
    <message>
        <source>The surface has a hole of {area} (corners: {count}).</source>
        <translation>La surface a un trou de {area} (sommets : {count}).</translation>
    </message>
    <message>
        <source>Trim one of the zones, or say by a priority which of them wins.</source>
        <translation>Rognez une des zones, ou dites par une priorité laquelle l&apos;emporte.</translation>
    </message>
    <message>
        <source>Trim the zone to the design, or extend the design that far.</source>
        <translation>Rognez la zone au projet, ou prolongez le projet jusque-là.</translation>
    </message>
    <message>
        <source>Two heights in one place</source>
        <translation>Deux altitudes au même endroit</translation>
    </message>
    <message>
        <source>Two points in one place</source>
        <translation>Deux points au même endroit</translation>
    </message>
    <message>
        <source>US survey feet</source>
        <translation>pieds US (survey feet)</translation>
    </message>
    <message>
        <source>Upright face</source>
        <translation>Face verticale</translation>
    </message>
    <message>
        <source>Water stands up to {depth} deep on {area}, {volume}, before it spills at {level} near {x:.2f}, {y:.2f}.</source>
        <translation>L&apos;eau stagne jusqu&apos;à {depth} de profondeur sur {area}, {volume}, avant de déborder à {level} vers {x:.2f}, {y:.2f}.</translation>
    </message>
    <message>
        <source>Which foot</source>
        <translation>Quel pied</translation>
    </message>
    <message>
        <source>Zone beyond the design</source>
        <translation>Zone hors du projet</translation>
    </message>
    <message>
        <source>Zone “{name}” lies outside the design.</source>
        <translation>La zone « {name} » est hors du projet.</translation>
    </message>
    <message>
        <source>Zone “{name}” reaches past the design on {area}, {width} wide on average.</source>
        <translation>La zone « {name} » dépasse le projet sur {area}, large de {width} en moyenne.</translation>
    </message>
    <message>
        <source>Zone “{one}” leaves a slit of {area}, {width} wide on average and {length} long.</source>
        <translation>La zone « {one} » laisse une fente de {area}, large de {width} en moyenne et longue de {length}.</translation>
    </message>
    <message>
        <source>Zones enclose {area} of the design that no zone covers.</source>
        <translation>Des zones enferment {area} du projet qu&apos;aucune zone ne couvre.</translation>
    </message>
    <message>
        <source>Zones overlap</source>
        <translation>Zones qui se recouvrent</translation>
    </message>
    <message>
        <source>Zones “{one}” and “{other}” leave a gap of {area} between them, {width} wide on average and {length} long.</source>
        <translation>Les zones « {one} » et « {other} » laissent entre elles un vide de {area}, large de {width} en moyenne et long de {length}.</translation>
    </message>
    <message>
        <source>Zones “{one}” and “{other}” overlap on {area}, {width} wide on average: no priority says which wins.</source>
        <translation>Les zones « {one} » et « {other} » se recouvrent sur {area}, {width} de large en moyenne : aucune priorité ne dit laquelle l&apos;emporte.</translation>
    </message>
    <message>
        <source>Zones “{one}” and “{other}” overlap on {area}: “{winner}” wins by its priority.</source>
        <translation>Les zones « {one} » et « {other} » se recouvrent sur {area} : « {winner} » l&apos;emporte par sa priorité.</translation>
    </message>
    <message>
        <source>international feet</source>
        <translation>pieds internationaux</translation>
    </message>
    <message>
        <source>metres</source>
        <translation>mètres</translation>
    </message>
    <message>
        <source>millimetres</source>
        <translation>millimètres</translation>
    </message>
    <message>
        <source>{part} of it reach past the zones meant to hold water.</source>
        <translation>{part} dépassent les zones destinées à retenir l&apos;eau.</translation>
    </message>
    <message>
        <source>Nothing: it is too small to matter; other programs may drop it.</source>
        <translation>Rien : elle est trop petite pour compter ; d&apos;autres programmes peuvent l&apos;écarter.</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no tolerance: write one length for both ways, such as 0.05 ft, or one for each way, such as -0 / +0.05 ft (- shallower, + deeper; “any” for no limit).</source>
        <translation>&apos;{text}&apos; n&apos;est pas une tolérance : écrivez une longueur pour les deux sens, comme 0.05 ft, ou une par sens, comme -0 / +0.05 ft (- moins profond, + plus profond ; « any » pour sans limite).</translation>
    </message>
    <message>
        <source>A breakline cannot be put into the surface: its vertices lie too close to other lines, choose a greater snap distance.</source>
        <translation>Une ligne de rupture ne peut être mise dans la surface : ses sommets sont trop près d&apos;autres lignes, choisissez une distance d&apos;accrochage plus grande.</translation>
    </message>
    <message>
        <source>Breakline {id} has vertices without height: give them heights, or have them taken from the surface.</source>
        <translation>La ligne de rupture {id} a des sommets sans hauteur : donnez-leur des hauteurs, ou faites-les prendre de la surface.</translation>
    </message>
    <message>
        <source>Breakline {id} is no edge of the surface here: look at the faces around it.</source>
        <translation>La ligne de rupture {id} n&apos;est pas une arête de la surface ici : regardez les faces autour.</translation>
    </message>
    <message>
        <source>Breakline {id} takes its heights from the surface, which does not reach this vertex: its segments here were not used.</source>
        <translation>La ligne de rupture {id} prend ses hauteurs de la surface, qui n&apos;atteint pas ce sommet : ses segments ici n&apos;ont pas servi.</translation>
    </message>
    <message>
        <source>Breakline {line} meets the boundary at heights {low} and {high}, {apart} apart: its segments that meet here were not used. Mend one of them.</source>
        <translation>La ligne de rupture {line} rencontre le contour aux hauteurs {low} et {high}, écart {apart} : ses segments qui s&apos;y rencontrent n&apos;ont pas servi. Corrigez l&apos;un des deux.</translation>
    </message>
    <message>
        <source>Breaklines {a} and {b} meet at heights {low} and {high}, {apart} apart: their segments that meet here were not used. Mend the heights of one of them.</source>
        <translation>Les lignes de rupture {a} et {b} se rencontrent aux hauteurs {low} et {high}, écart {apart} : leurs segments qui s&apos;y rencontrent n&apos;ont pas servi. Corrigez les hauteurs de l&apos;une d&apos;elles.</translation>
    </message>
    <message>
        <source>Nothing is left of the surface: the longest edge allowed is too short, or the boundary holds no points.</source>
        <translation>Il ne reste rien de la surface : la plus longue arête admise est trop courte, ou le contour ne contient pas de points.</translation>
    </message>
    <message>
        <source>Point {id} has no height and was not used: give it one.</source>
        <translation>Le point {id} n&apos;a pas de hauteur et n&apos;a pas servi : donnez-lui-en une.</translation>
    </message>
    <message>
        <source>Point {point} lies on breakline or boundary {line}, {apart} off its height ({low} and {high}): the point was not used. Mend the one that is wrong.</source>
        <translation>Le point {point} est sur la ligne de rupture ou le contour {line}, à {apart} de sa hauteur ({low} et {high}) : le point n&apos;a pas servi. Corrigez celui qui est faux.</translation>
    </message>
    <message>
        <source>Points {a} and {b} lie in one place at heights {low} and {high}, {apart} apart: neither was used. Remove the wrong one.</source>
        <translation>Les points {a} et {b} sont au même endroit aux hauteurs {low} et {high}, écart {apart} : aucun n&apos;a servi. Retirez celui qui est faux.</translation>
    </message>
    <message>
        <source>The boundary (features {a} and {b}) has two heights here, {low} and {high}, {apart} apart: only one can be right, mend it.</source>
        <translation>Le contour (entités {a} et {b}) a ici deux hauteurs, {low} et {high}, écart {apart} : une seule peut être juste, corrigez-le.</translation>
    </message>
    <message>
        <source>The boundary lies off the points: nothing is left.</source>
        <translation>Le contour est à côté des points : il ne reste rien.</translation>
    </message>
    <message>
        <source>The breaklines lie so close to each other that they cannot be told apart: choose a smaller snap distance.</source>
        <translation>Les lignes de rupture sont si proches l&apos;une de l&apos;autre qu&apos;on ne peut les distinguer : choisissez une distance d&apos;accrochage plus petite.</translation>
    </message>
    <message>
        <source>The points do not reach the boundary here: {area} square plan units within it have no surface. Give the boundary heights, or extend the surface.</source>
        <translation>Les points n&apos;atteignent pas le contour ici : {area} unités de plan carrées à l&apos;intérieur n&apos;ont pas de surface. Donnez des hauteurs au contour, ou prolongez la surface.</translation>
    </message>
    <message>
        <source>The points lie on one line or in one place: a surface needs three that span an area.</source>
        <translation>Les points sont sur une seule ligne ou au même endroit : une surface en demande trois qui forment une aire.</translation>
    </message>
    <message>
        <source>The vertex here (feature {id}) is in no face, because all edges to it are longer than the longest edge allowed.</source>
        <translation>Le sommet ici (entité {id}) n&apos;est dans aucune face, car toutes les arêtes vers lui sont plus longues que la plus longue admise.</translation>
    </message>
    <message>
        <source>There is neither a point nor a breakline to build of.</source>
        <translation>Il n&apos;y a ni point ni ligne de rupture à partir desquels construire.</translation>
    </message>
    <message>
        <source>Faces that rise more than 10 to 1 ({count}, the first is face {face}), up to {rise} high.</source>
        <translation>Faces qui montent à plus de 10 pour 1 ({count}, la première est la face {face}), hautes de {rise} au plus.</translation>
    </message>
    <message>
        <source>Upright faces ({count}, the first is face {face}), up to {rise} high: they have no slope and no plan area.</source>
        <translation>Faces verticales ({count}, la première est la face {face}), hautes de {rise} au plus : elles n&apos;ont ni pente ni aire en plan.</translation>
    </message>
    <message>
        <source>In {count} faces of the design, the first near {x:.3f}, {y:.3f}, zone borders contradict each other: check the result there, and whether faces of the design overlap.</source>
        <translation>Dans {count} faces du projet, la première près de {x:.3f}, {y:.3f}, des limites de zones se contredisent : vérifiez le résultat à cet endroit, et si des faces du projet se recouvrent.</translation>
    </message>
    <message>
        <source>Breakline {line} meets itself at heights {low} and {high}, {apart} apart: its segments that meet here were not used. Mend its heights.</source>
        <translation>La ligne de rupture {line} se rencontre elle-même aux hauteurs {low} et {high}, écart {apart} : ses segments qui s&apos;y rencontrent n&apos;ont pas servi. Corrigez ses hauteurs.</translation>
    </message>
    <message>
        <source>The two surfaces share no ground: check that both belong here.</source>
        <translation>Les deux surfaces n&apos;ont aucun terrain en commun : vérifiez que les deux sont d&apos;ici.</translation>
    </message>
</context>
<context>
    <name>CourseReport</name>
    <message>
        <source>A thickness is plumb (vertical) unless the schedule says square: at right angles to the design.</source>
        <translation>Une épaisseur est d&apos;aplomb (verticale), sauf si le tableau dit square : perpendiculaire au projet.</translation>
    </message>
    <message>
        <source>By zone</source>
        <translation>Par zone</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Course</source>
        <translation>Couche</translation>
    </message>
    <message>
        <source>Courses below the design</source>
        <translation>Couches sous le projet</translation>
    </message>
    <message>
        <source>Density, t/m³</source>
        <translation>Masse volumique, t/m³</translation>
    </message>
    <message>
        <source>Depths are those of the underside below the design. A section with fewer courses stays at its last one.</source>
        <translation>Les profondeurs sont celles du dessous de la couche sous le projet. Une structure de moins de couches reste à sa dernière.</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>Each surface is the lowest of what is dug for the courses down to it, so that no surface comes above the one over it.</source>
        <translation>Chaque surface est la plus basse des fouilles des couches jusqu&apos;à elle : aucune ne passe au-dessus de celle qui la recouvre.</translation>
    </message>
    <message>
        <source>Heights and what is past the edge to one scale, the width of the zone cut short.</source>
        <translation>Hauteurs et débords à la même échelle, largeur de la zone abrégée.</translation>
    </message>
    <message>
        <source>Heights to scale, the width of the zone cut short; sides upright.</source>
        <translation>Hauteurs à l&apos;échelle, largeur de la zone abrégée ; parois verticales.</translation>
    </message>
    <message>
        <source>Heights {times} times as large as what is past the edge, the width of the zone cut short.</source>
        <translation>Hauteurs {times} fois plus grandes que les débords, largeur de la zone abrégée.</translation>
    </message>
    <message>
        <source>How it was made</source>
        <translation>Comment elle a été faite</translation>
    </message>
    <message>
        <source>In feet, yards and short tons.</source>
        <translation>En pieds, yards et tonnes courtes.</translation>
    </message>
    <message>
        <source>In metres and tonnes.</source>
        <translation>En mètres et tonnes.</translation>
    </message>
    <message>
        <source>Loose, m³</source>
        <translation>Foisonné, m³</translation>
    </message>
    <message>
        <source>Loose, yd³</source>
        <translation>Foisonné, yd³</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Remarque</translation>
    </message>
    <message>
        <source>Nothing was flagged.</source>
        <translation>Rien n&apos;a été signalé.</translation>
    </message>
    <message>
        <source>On the slope, ft²</source>
        <translation>Sur la pente, ft²</translation>
    </message>
    <message>
        <source>On the slope, m²</source>
        <translation>Sur la pente, m²</translation>
    </message>
    <message>
        <source>Order</source>
        <translation>Rang</translation>
    </message>
    <message>
        <source>Past the edge</source>
        <translation>Au-delà du bord</translation>
    </message>
    <message>
        <source>Plan area and area on the slope are those of the underside of the course; its volume lies between that and the surface above it. Widened floors and sides are in the volumes as they are dug: beside a course that is wider than those above it, up to the design. Loose volumes are volume times swell, masses are volume times density in place; a dash stands where the schedule gives none.</source>
        <translation>L&apos;aire en plan et l&apos;aire sur la pente sont celles du dessous de la couche ; son volume est entre ce dessous et la surface qui la recouvre. Fonds élargis et talus sont dans les volumes comme ils sont creusés : à côté d&apos;une couche plus large que celles du dessus, jusqu&apos;au projet. Le volume foisonné est le volume fois le foisonnement, la masse est le volume fois la masse volumique en place ; un tiret signifie que le tableau n&apos;en donne pas.</translation>
    </message>
    <message>
        <source>Plan area, ft²</source>
        <translation>Aire en plan, ft²</translation>
    </message>
    <message>
        <source>Plan area, m²</source>
        <translation>Aire en plan, m²</translation>
    </message>
    <message>
        <source>Plan unit</source>
        <translation>Unité en plan</translation>
    </message>
    <message>
        <source>Quantities</source>
        <translation>Quantités</translation>
    </message>
    <message>
        <source>Row</source>
        <translation>Ligne</translation>
    </message>
    <message>
        <source>Rows are counted from 1 below the names of the columns.</source>
        <translation>Les lignes sont comptées à partir de 1 sous les noms des colonnes.</translation>
    </message>
    <message>
        <source>Schedule</source>
        <translation>Tableau des structures</translation>
    </message>
    <message>
        <source>Section</source>
        <translation>Structure</translation>
    </message>
    <message>
        <source>Short tons</source>
        <translation>Tonnes courtes</translation>
    </message>
    <message>
        <source>Sides, run to rise</source>
        <translation>Parois, longueur pour hauteur</translation>
    </message>
    <message>
        <source>Surface {number}: below</source>
        <translation>Surface {number} : sous</translation>
    </message>
    <message>
        <source>Swell</source>
        <translation>Foisonnement</translation>
    </message>
    <message>
        <source>The first {count} of {all} sections are drawn.</source>
        <translation>Les {count} premières des {all} structures sont dessinées.</translation>
    </message>
    <message>
        <source>The schedule as read</source>
        <translation>Le tableau tel qu&apos;il a été lu</translation>
    </message>
    <message>
        <source>The volumes of all courses together are the volume between the design and the lowest surface; existing ground is not considered.</source>
        <translation>Les volumes de toutes les couches font ensemble le volume entre le projet et la surface la plus basse ; le terrain existant n&apos;est pas pris en compte.</translation>
    </message>
    <message>
        <source>There are {count} courses of zones, too many to print: they are in the table of quantities.</source>
        <translation>Il y a {count} couches de zones, trop pour les imprimer : elles sont dans la table des quantités.</translation>
    </message>
    <message>
        <source>Thickness</source>
        <translation>Épaisseur</translation>
    </message>
    <message>
        <source>Tonnes</source>
        <translation>Tonnes</translation>
    </message>
    <message>
        <source>Typical section {name}</source>
        <translation>Coupe type {name}</translation>
    </message>
    <message>
        <source>Typical sections</source>
        <translation>Coupes types</translation>
    </message>
    <message>
        <source>Unit of heights</source>
        <translation>Unité des altitudes</translation>
    </message>
    <message>
        <source>Upright sides run {run} in plan at least; no ground holds them by itself.</source>
        <translation>Les parois verticales occupent au moins {run} en plan ; aucun terrain ne les tient de lui-même.</translation>
    </message>
    <message>
        <source>Volume, ft³</source>
        <translation>Volume, ft³</translation>
    </message>
    <message>
        <source>Volume, m³</source>
        <translation>Volume, m³</translation>
    </message>
    <message>
        <source>Volume, yd³</source>
        <translation>Volume, yd³</translation>
    </message>
    <message>
        <source>What each surface is</source>
        <translation>Ce qu&apos;est chaque surface</translation>
    </message>
    <message>
        <source>Zone</source>
        <translation>Zone</translation>
    </message>
    <message>
        <source>Zone borders were moved by at most {move} to fit the design.</source>
        <translation>Les bords des zones ont été déplacés de {move} au plus pour s&apos;ajuster au projet.</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
    <message>
        <source>all</source>
        <translation>toutes</translation>
    </message>
    <message>
        <source>as before</source>
        <translation>comme avant</translation>
    </message>
    <message>
        <source>design</source>
        <translation>projet</translation>
    </message>
    <message>
        <source>design beside the zone</source>
        <translation>projet à côté de la zone</translation>
    </message>
    <message>
        <source>edge of the zone</source>
        <translation>bord de la zone</translation>
    </message>
    <message>
        <source>in all {depth}</source>
        <translation>en tout {depth}</translation>
    </message>
    <message>
        <source>sides {ratio}:1 (run to rise), {run} out</source>
        <translation>parois {ratio}:1 (longueur pour hauteur), débord {run}</translation>
    </message>
    <message>
        <source>upright</source>
        <translation>verticales</translation>
    </message>
    <message>
        <source>{count} things are flagged below: look at them first.</source>
        <translation>{count} points sont signalés ci-dessous : regardez-les d&apos;abord.</translation>
    </message>
    <message>
        <source>{course}: {words}</source>
        <translation>{course} : {words}</translation>
    </message>
    <message>
        <source>{interfaces} surfaces below the design for {zones} zones of {sections} sections; {yards} yd³ ({metres} m³) between the design and the lowest.</source>
        <translation>{interfaces} surfaces sous le projet pour {zones} zones de {sections} structures ; {yards} yd³ ({metres} m³) entre le projet et la plus basse.</translation>
    </message>
    <message>
        <source>{thickness} square to the slope</source>
        <translation>{thickness} perpendiculaires à la pente</translation>
    </message>
    <message>
        <source>{width} past the edge</source>
        <translation>{width} au-delà du bord</translation>
    </message>
    <message>
        <source>The ratio of sloping sides is the run over which the depth below the design becomes one less.</source>
        <translation>Le rapport des talus est la longueur sur laquelle la profondeur sous le projet diminue de un.</translation>
    </message>
    <message>
        <source>The ratio of sloping sides is the true run to rise, counted from the level.</source>
        <translation>Le rapport des talus est la vraie longueur pour une hauteur, comptée à partir de l&apos;horizontale.</translation>
    </message>
    <message>
        <source>{thickness} square</source>
        <translation>{thickness} perpendiculaires</translation>
    </message>
</context>
<context>
    <name>CourseSurfaces</name>
    <message>
        <source>A course may be wider than its zone and have sloping sides. Each surface is the lowest of what is dug for all courses down to it, and therefore never comes above the one over it.</source>
        <translation>Une couche peut être plus large que sa zone et avoir des parois en talus. Chaque surface est la plus basse des fouilles de toutes les couches jusqu&apos;à elle, et ne passe donc jamais au-dessus de celle qui la recouvre.</translation>
    </message>
    <message>
        <source>A page with a drawn typical section for each section, the quantities in feet and in metres, the schedule as read, what was flagged, and the cautions.</source>
        <translation>Une page avec une coupe type dessinée pour chaque structure, les quantités en pieds et en mètres, le tableau tel qu&apos;il a été lu, ce qui a été signalé, et les mises en garde.</translation>
    </message>
    <message>
        <source>A table (CSV, sheet, database) with one row for each course and the columns: section; order, 1 for the uppermost; course; thickness, greater than 0, with its unit or in the unit of the heights (0.15 ft, 8 1/2 in, 60 mm). If wanted: widen, how far its underside carries on past the edge of the zone; batter, run to rise of its sides (1.5:1), upright without; rule, plumb (vertical, taken without) or square (at right angles to the design); swell, loose volume over volume in place (1.25); density, in tonnes per cubic metre or with a unit (145 lb/ft3); note. Rows are counted from 1 below the names of the columns.</source>
        <translation>Une table (CSV, feuille de calcul, base de données) avec une ligne par couche et les colonnes : section, la structure ; order, le rang, 1 pour la plus haute ; course, la couche ; thickness, l&apos;épaisseur, plus grande que 0, avec son unité ou dans l&apos;unité des altitudes (0.15 ft, 8 1/2 in, 60 mm). Au besoin : widen, de combien son dessous continue au-delà du bord de la zone ; batter, longueur pour hauteur de ses parois (1.5:1), verticales sans cela ; rule, plumb (à la verticale, pris sans cela) ou square (perpendiculairement au projet) ; swell, volume foisonné sur volume en place (1.25) ; density, masse volumique en tonnes par mètre cube ou avec une unité (145 lb/ft3) ; note. Les lignes sont comptées à partir de 1 sous les noms des colonnes.</translation>
    </message>
    <message>
        <source>A table with one row for each course of each zone: plan area and area on the slope of its underside, volume, loose volume (with a swell factor) in plan units, cubic yards and cubic metres, and tonnes (with a density).</source>
        <translation>Une table avec une ligne par couche de chaque zone : aire en plan et aire sur la pente de son dessous, volume, volume foisonné (avec un foisonnement) en unités du plan, yards cubes et mètres cubes, et tonnes (avec une masse volumique).</translation>
    </message>
    <message>
        <source>Course surfaces</source>
        <translation>Surfaces des couches</translation>
    </message>
    <message>
        <source>Courses below {name}</source>
        <translation>Couches sous {name}</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>Faces</source>
        <translation>Faces</translation>
    </message>
    <message>
        <source>Faces of courses, {name}</source>
        <translation>Faces des couches, {name}</translation>
    </message>
    <message>
        <source>Field with the priority of each zone</source>
        <translation>Champ de la priorité de chaque zone</translation>
    </message>
    <message>
        <source>Field with the section of each zone</source>
        <translation>Champ de la structure de chaque zone</translation>
    </message>
    <message>
        <source>Folder of the surfaces</source>
        <translation>Dossier des surfaces</translation>
    </message>
    <message>
        <source>Gets one mesh a surface, interface_1.ply and so on from the top down, and interfaces.csv, which says whose underside each is. Surfaces of an earlier run that its list names are replaced.</source>
        <translation>Reçoit un maillage par surface, interface_1.ply et ainsi de suite du haut vers le bas, et interfaces.csv, qui dit de quelle couche chacune est le dessous. Les surfaces d&apos;un traitement antérieur que sa liste nomme sont remplacées.</translation>
    </message>
    <message>
        <source>Keep the design</source>
        <translation>Garder le projet</translation>
    </message>
    <message>
        <source>Largest move of a zone border</source>
        <translation>Plus grand déplacement d&apos;un bord de zone</translation>
    </message>
    <message>
        <source>Leave it out</source>
        <translation>L&apos;omettre</translation>
    </message>
    <message>
        <source>Loose volume of courses with a swell factor</source>
        <translation>Volume foisonné des couches qui ont un foisonnement</translation>
    </message>
    <message>
        <source>Lowest surface</source>
        <translation>Surface la plus basse</translation>
    </message>
    <message>
        <source>Makes one surface below each course of the sections of a schedule, from the top down, with the area, volume and mass of every course.</source>
        <translation>Fait une surface sous chaque couche des structures d&apos;un tableau, du haut vers le bas, avec l&apos;aire, le volume et la masse de chaque couche.</translation>
    </message>
    <message>
        <source>Names a section of the schedule; capitals do not matter. Left blank, a field called “section” is used.</source>
        <translation>Nomme une structure du tableau ; majuscules ou minuscules, peu importe. S&apos;il est vide, un champ nommé « section » est utilisé.</translation>
    </message>
    <message>
        <source>No field with the section of each zone is chosen, and the zones have none called “section”: choose it.</source>
        <translation>Aucun champ de la structure de chaque zone n&apos;est choisi, et les zones n&apos;en ont pas nommé « section » : choisissez-le.</translation>
    </message>
    <message>
        <source>Number of faces of all surfaces</source>
        <translation>Nombre de faces de toutes les surfaces</translation>
    </message>
    <message>
        <source>Number of sections that zones have</source>
        <translation>Nombre de structures qu&apos;ont les zones</translation>
    </message>
    <message>
        <source>Number of surfaces</source>
        <translation>Nombre de surfaces</translation>
    </message>
    <message>
        <source>Number of zones</source>
        <translation>Nombre de zones</translation>
    </message>
    <message>
        <source>Outside all zones</source>
        <translation>Hors de toutes les zones</translation>
    </message>
    <message>
        <source>Plan area of what is dug</source>
        <translation>Aire en plan de la fouille</translation>
    </message>
    <message>
        <source>Polygons with the name of their section. Zones in another CRS are moved to that of the design.</source>
        <translation>Polygones avec le nom de leur structure. Les zones d&apos;un autre SCR sont amenées dans celui du projet.</translation>
    </message>
    <message>
        <source>Quantities</source>
        <translation>Quantités</translation>
    </message>
    <message>
        <source>Quantities of courses, {name}</source>
        <translation>Quantités des couches, {name}</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Schedule</source>
        <translation>Tableau des structures</translation>
    </message>
    <message>
        <source>The finished surface: a mesh layer, or a polygon layer with heights (triangles or planar faces). Its CRS must be projected.</source>
        <translation>La surface finie : une couche de maillage, ou une couche de polygones avec altitudes (triangles ou faces planes). Son SCR doit être projeté.</translation>
    </message>
    <message>
        <source>The first surface is the underside of the first course of each section, the second that of the second course, and so on; a section with fewer courses stays at its last one. Zones beside each other share their surfaces, so that a walk beside a lane leaves neither gap nor overlap.</source>
        <translation>La première surface est le dessous de la première couche de chaque structure, la deuxième celui de la deuxième, et ainsi de suite ; une structure de moins de couches reste à sa dernière. Des zones voisines partagent leurs surfaces : un trottoir le long d&apos;une voie ne laisse ni vide ni recouvrement.</translation>
    </message>
    <message>
        <source>The triangles of all surfaces with heights, with the fields: interface (1 is the uppermost), zone, name, section, course, depth (mean of the face, + below the design), part, parent (face of the design, from 1), flag and why.</source>
        <translation>Les triangles de toutes les surfaces avec altitudes, avec les champs : interface (1 est la plus haute), zone, name, section, course, depth (moyenne de la face, + sous le projet), part, parent (face du projet, à partir de 1), flag et why.</translation>
    </message>
    <message>
        <source>Things that may be wrong</source>
        <translation>Points peut-être faux</translation>
    </message>
    <message>
        <source>Tonnes of courses with a density</source>
        <translation>Tonnes des couches qui ont une masse volumique</translation>
    </message>
    <message>
        <source>Volume between the design and the lowest surface</source>
        <translation>Volume entre le projet et la surface la plus basse</translation>
    </message>
    <message>
        <source>Volumes are exact: they lie between two surfaces, widened floors and sides included, and all courses together are the volume between the design and the lowest surface.</source>
        <translation>Les volumes sont exacts : entre deux surfaces, fonds élargis et parois compris, et toutes les couches font ensemble le volume entre le projet et la surface la plus basse.</translation>
    </message>
    <message>
        <source>Where zones overlap, the one with the lower number wins (1 before 2). Without it an overlap stops the run.</source>
        <translation>Où des zones se recouvrent, celle du plus petit nombre l&apos;emporte (1 avant 2). Sans lui, un recouvrement arrête le traitement.</translation>
    </message>
    <message>
        <source>Whether each surface carries the design on where nothing is dug. Quantities are the same.</source>
        <translation>Si chaque surface continue le projet là où rien n&apos;est creusé. Les quantités sont les mêmes.</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
    <message>
        <source>course,layer,pavement,base,subbase,subgrade,section,schedule,quantities,volume,tonnes,TIN,mesh</source>
        <translation>couche,chaussée,assise,fondation,forme,arase,structure,coupe,tableau,quantités,métré,volume,tonnes,TIN,maillage</translation>
    </message>
    <message>
        <source>{count} surfaces in {folder}; volume between the design and the lowest {volume:.2f} cubic {unit}.</source>
        <translation>{count} surfaces dans {folder} ; volume entre le projet et la plus basse {volume:.2f} {unit} cubes.</translation>
    </message>
    <message>
        <source>{number} below {courses}</source>
        <translation>{number} sous {courses}</translation>
    </message>
    <message>
        <source>“{name}” is a raster: choose a mesh or polygons with heights.</source>
        <translation>« {name} » est un raster : choisissez un maillage ou des polygones avec altitudes.</translation>
    </message>
    <message>
        <source>“{path}” is a file: choose a folder for the surfaces.</source>
        <translation>« {path} » est un fichier : choisissez un dossier pour les surfaces.</translation>
    </message>
</context>
<context>
    <name>CrossSections</name>
    <message>
        <source>, heights in {unit}</source>
        <translation>, hauteurs en {unit}</translation>
    </message>
    <message>
        <source>A section is flagged where it crosses another one on the inside of a bend within its width (volumes by end areas count ground twice there), where the line turns sharply, and where a surface is missing.</source>
        <translation>Un profil est signalé là où il en croise un autre à l&apos;intérieur d&apos;une courbe dans sa largeur (les volumes par aires extrêmes y comptent le terrain deux fois), là où la ligne tourne brusquement, et là où une surface manque.</translation>
    </message>
    <message>
        <source>A4</source>
        <translation>A4</translation>
    </message>
    <message>
        <source>Along a TIN a profile bends exactly where the section crosses an edge. Areas are split exactly where two profiles cross, and count only where both surfaces are.</source>
        <translation>Sur un TIN, le profil change de pente exactement là où il croise une arête. Les aires sont coupées exactement là où deux profils se croisent, et ne comptent que là où les deux surfaces existent.</translation>
    </message>
    <message>
        <source>Along a raster a profile has a height wherever the section crosses a row or a column of pixel centres, and at its ends, interpolated between the centres, and runs straight from one to the next.</source>
        <translation>Sur un raster, le profil a une hauteur partout où il croise une ligne ou une colonne de centres de pixels, et à ses extrémités, interpolée entre les centres, et va tout droit de l&apos;une à la suivante.</translation>
    </message>
    <message>
        <source>Areas</source>
        <translation>Aires</translation>
    </message>
    <message>
        <source>Areas of sections</source>
        <translation>Aires des profils</translation>
    </message>
    <message>
        <source>Areas: lower surface</source>
        <translation>Aires : surface inférieure</translation>
    </message>
    <message>
        <source>Areas: upper surface</source>
        <translation>Aires : surface supérieure</translation>
    </message>
    <message>
        <source>Average end areas</source>
        <translation>Moyenne des aires extrêmes</translation>
    </message>
    <message>
        <source>Average end areas: distance along the line times the mean of the areas at both ends. Prismoidal formula: distance times (first area + 4 times the area of a true section half way + last area) / 6.</source>
        <translation>Moyenne des aires extrêmes : distance le long de la ligne fois la moyenne des aires aux deux bouts. Formule prismoïdale : distance fois (première aire + 4 fois l&apos;aire d&apos;un vrai profil à mi-chemin + dernière aire) / 6.</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Cross sections</source>
        <translation>Profils en travers</translation>
    </message>
    <message>
        <source>Crosses the section at {station}, {offset} to the {side}, on the inside of a bend: the ground beyond belongs to both, and volumes by end areas count it twice.</source>
        <translation>Croise le profil à {station}, à {offset} {side}, à l&apos;intérieur d&apos;une courbe : le terrain au-delà appartient aux deux, et les volumes par aires extrêmes le comptent deux fois.</translation>
    </message>
    <message>
        <source>Cut</source>
        <translation>Déblai</translation>
    </message>
    <message>
        <source>Cut and fill</source>
        <translation>Déblai et remblai</translation>
    </message>
    <message>
        <source>Cut by average end areas (cubic plan units)</source>
        <translation>Déblai par moyenne des aires extrêmes (unités planes cubes)</translation>
    </message>
    <message>
        <source>Cut by the prismoidal formula</source>
        <translation>Déblai par la formule prismoïdale</translation>
    </message>
    <message>
        <source>Cut is where the upper surface (usually the ground) lies above the lower one (usually the design), fill where it lies below. Areas count only where both surfaces are, and are split exactly where they cross.</source>
        <translation>Le déblai est là où la surface supérieure (d&apos;ordinaire le terrain) est au-dessus de l&apos;inférieure (d&apos;ordinaire le projet), le remblai là où elle est au-dessous. Les aires ne comptent que là où les deux surfaces existent, et sont coupées exactement là où elles se croisent.</translation>
    </message>
    <message>
        <source>Cut is {cut} where “{upper}” lies above “{lower}”; fill is {fill} where it lies below ({how}, between the first and the last section).</source>
        <translation>Le déblai est de {cut} là où « {upper} » est au-dessus de « {lower} » ; le remblai est de {fill} là où elle est au-dessous ({how}, entre le premier et le dernier profil).</translation>
    </message>
    <message>
        <source>Cuts sections across lines through any number of surfaces: profiles, plots, areas of cut and fill, and volumes by end areas, by the prismoidal formula and exactly.</source>
        <translation>Coupe des profils en travers de lignes à travers autant de surfaces que voulu : profils, dessins, aires de déblai et de remblai, et volumes par aires extrêmes, par la formule prismoïdale et exactement.</translation>
    </message>
    <message>
        <source>Every point of every section: station, offset (+ right, - left), place, and the height of each surface. Where a surface jumps there are two rows for one offset.</source>
        <translation>Chaque point de chaque profil : abscisse, décalage (+ à droite, - à gauche), position, et hauteur de chaque surface. Là où une surface saute, il y a deux lignes pour un décalage.</translation>
    </message>
    <message>
        <source>Exact cut (TINs only)</source>
        <translation>Déblai exact (TIN seulement)</translation>
    </message>
    <message>
        <source>Exact fill (TINs only)</source>
        <translation>Remblai exact (TIN seulement)</translation>
    </message>
    <message>
        <source>Exact, between the surfaces</source>
        <translation>Exact, entre les surfaces</translation>
    </message>
    <message>
        <source>Field with names of guidelines</source>
        <translation>Champ des noms de lignes guides</translation>
    </message>
    <message>
        <source>Field with names of lines</source>
        <translation>Champ des noms de lignes</translation>
    </message>
    <message>
        <source>Field with names of zones</source>
        <translation>Champ des noms de zones</translation>
    </message>
    <message>
        <source>Fill</source>
        <translation>Remblai</translation>
    </message>
    <message>
        <source>Fill by average end areas (cubic plan units)</source>
        <translation>Remblai par moyenne des aires extrêmes (unités planes cubes)</translation>
    </message>
    <message>
        <source>Fill by the prismoidal formula</source>
        <translation>Remblai par la formule prismoïdale</translation>
    </message>
    <message>
        <source>Guidelines</source>
        <translation>Lignes guides</translation>
    </message>
    <message>
        <source>How far sections reach from the line, to the left and to the right.</source>
        <translation>Jusqu&apos;où les profils s&apos;étendent depuis la ligne, à gauche et à droite.</translation>
    </message>
    <message>
        <source>How many times larger heights are drawn than widths; 1 draws to one scale. Data are never exaggerated.</source>
        <translation>Combien de fois les hauteurs sont dessinées plus grandes que les largeurs ; 1 dessine à une seule échelle. Les données ne sont jamais exagérées.</translation>
    </message>
    <message>
        <source>Interval</source>
        <translation>Intervalle</translation>
    </message>
    <message>
        <source>Letter</source>
        <translation>Letter</translation>
    </message>
    <message>
        <source>Letter for jobs in feet, A4 for others</source>
        <translation>Letter pour les travaux en pieds, A4 pour les autres</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Lignes</translation>
    </message>
    <message>
        <source>Lines that are marked where sections cross them, with name, offset and height.</source>
        <translation>Lignes marquées là où les profils les croisent, avec nom, décalage et hauteur.</translation>
    </message>
    <message>
        <source>Lines to cut sections across, in a projected CRS: an alignment, a centreline. Sections look from the first to the last vertex; true arcs are kept.</source>
        <translation>Lignes en travers desquelles couper, dans un SCR projeté : un axe, une ligne centrale. Les profils regardent du premier au dernier sommet ; les vrais arcs sont gardés.</translation>
    </message>
    <message>
        <source>Lines with heights, left to right, one for each section and surface, with the fields: number, source_id, line, station (text), station_value, surface, title; offset_left, offset_right (where the surface begins and ends, + right, - left), height_min, height_max, height_on_line, gaps; left_east, left_north, right_east, right_north (the whole section), bearing (the way it looks); flag, why. An atlas of a print layout steps through them.</source>
        <translation>Lignes avec hauteurs, de gauche à droite, une par profil et par surface, avec les champs : number, source_id, line, station (texte), station_value, surface, title ; offset_left, offset_right (où la surface commence et finit, + à droite, - à gauche), height_min, height_max, height_on_line, gaps ; left_east, left_north, right_east, right_north (le profil entier), bearing (vers où il regarde) ; flag, why. Un atlas de mise en page les parcourt.</translation>
    </message>
    <message>
        <source>Listed stations</source>
        <translation>Abscisses indiquées</translation>
    </message>
    <message>
        <source>Marks</source>
        <translation>Repères</translation>
    </message>
    <message>
        <source>Marks on sections</source>
        <translation>Repères sur les profils</translation>
    </message>
    <message>
        <source>Mesh layers, polygon layers with heights (triangles or planar faces) and rasters, in the CRS of the lines. TINs are exact at every edge that a section crosses. Rasters have a height wherever a section crosses a row or a column of pixel centres and at its ends, interpolated between the centres, and run straight from one to the next. The order is that of the plots.</source>
        <translation>Couches de maillage, couches de polygones avec hauteurs (triangles ou faces planes) et rasters, dans le SCR des lignes. Les TIN sont exacts à chaque arête croisée par un profil. Les rasters ont une hauteur partout où un profil croise une ligne ou une colonne de centres de pixels et à ses extrémités, interpolée entre les centres, et vont tout droit de l&apos;une à la suivante. L&apos;ordre est celui des dessins.</translation>
    </message>
    <message>
        <source>Not on this section: {names}.</source>
        <translation>Absent de ce profil : {names}.</translation>
    </message>
    <message>
        <source>Number of flagged sections</source>
        <translation>Nombre de profils signalés</translation>
    </message>
    <message>
        <source>Number of sections</source>
        <translation>Nombre de profils</translation>
    </message>
    <message>
        <source>One of the two surfaces is missing over {width} in between: the areas are without it.</source>
        <translation>L&apos;une des deux surfaces manque sur {width} entre les bords : les aires sont sans cette partie.</translation>
    </message>
    <message>
        <source>Page with the volumes by each method and why they differ, areas by station, and some of the sections.</source>
        <translation>Page avec les volumes par chaque méthode et pourquoi ils diffèrent, les aires par abscisse, et quelques-uns des profils.</translation>
    </message>
    <message>
        <source>Paper</source>
        <translation>Papier</translation>
    </message>
    <message>
        <source>Plots</source>
        <translation>Dessins</translation>
    </message>
    <message>
        <source>Points where sections cross guidelines and borders of zones, with the fields: number, line, station, station_value, kind (guideline, zone_border), name, signed_offset (+ right, - left), side, height (of the guideline, else of the first surface there), surface, height_surface, difference (guideline less surface).</source>
        <translation>Points où les profils croisent les lignes guides et les limites de zones, avec les champs : number, line, station, station_value, kind (guideline, zone_border), name, signed_offset (+ à droite, - à gauche), side, height (de la ligne guide, sinon de la première surface présente), surface, height_surface, difference (ligne guide moins surface).</translation>
    </message>
    <message>
        <source>Polygons whose borders are marked where sections cross them; plots name the zones between.</source>
        <translation>Polygones dont les limites sont marquées là où les profils les croisent ; les dessins nomment les zones entre elles.</translation>
    </message>
    <message>
        <source>Prismoidal formula</source>
        <translation>Formule prismoïdale</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Sections</source>
        <translation>Profils</translation>
    </message>
    <message>
        <source>Sections are square to the line, radial on its true arcs, and at a vertex on the bisector, where they reach as far as the strip beside both legs does; areas there count times the cosine of half the turn in volumes.</source>
        <translation>Les profils sont perpendiculaires à la ligne, radiaux sur ses vrais arcs, et à un sommet sur la bissectrice, où ils vont aussi loin que la bande le long des deux côtés ; dans les volumes, les aires y comptent fois le cosinus de la moitié de l&apos;angle.</translation>
    </message>
    <message>
        <source>Sections drawn to a stated scale, several on a page, with a grid, offsets and elevations.</source>
        <translation>Profils dessinés à une échelle indiquée, plusieurs par page, avec grille, décalages et altitudes.</translation>
    </message>
    <message>
        <source>Sections stand at the stations that are multiples of this, and at both ends. 0 or blank: at the ends, or at listed stations alone where there are any.</source>
        <translation>Les profils sont aux abscisses multiples de cette valeur, et aux deux bouts. 0 ou vide : aux bouts, ou aux seules abscisses indiquées s&apos;il y en a.</translation>
    </message>
    <message>
        <source>Sections stand square to the line, radial on true arcs, and on the bisector at a vertex, and look from its first to its last vertex. Offsets are + to the right and - to the left. Profiles of TINs are exact at every edge that a section crosses.</source>
        <translation>Les profils sont perpendiculaires à la ligne, radiaux sur les vrais arcs, et sur la bissectrice à un sommet, et regardent du premier au dernier sommet. Les décalages sont + à droite et - à gauche. Les profils de TIN sont exacts à chaque arête croisée.</translation>
    </message>
    <message>
        <source>Size of the pages of the plots.</source>
        <translation>Format des pages de dessins.</translation>
    </message>
    <message>
        <source>Stations that get a section wherever a line has them, such as 1+12.50, 2+00 in feet or 0+112.500 in metres.</source>
        <translation>Abscisses qui reçoivent un profil partout où une ligne les a, comme 1+12.50, 2+00 en pieds ou 0+112.500 en mètres.</translation>
    </message>
    <message>
        <source>Surfaces</source>
        <translation>Surfaces</translation>
    </message>
    <message>
        <source>Table of points</source>
        <translation>Table des points</translation>
    </message>
    <message>
        <source>Table with one row for each section: area and width of cut and of fill in plan units, width where both surfaces are there, largest cut and fill; volumes to the next section by average end areas and by the prismoidal formula (with a true section half way) in cubic plan units, and the sums so far in cubic yards and cubic metres; flag, why.</source>
        <translation>Table d&apos;une ligne par profil : aire et largeur de déblai et de remblai en unités planes, largeur où les deux surfaces existent, plus grands déblai et remblai ; volumes jusqu&apos;au profil suivant par moyenne des aires extrêmes et par la formule prismoïdale (avec un vrai profil à mi-chemin) en unités planes cubes, et sommes jusqu&apos;ici en yards cubes et mètres cubes ; flag, why.</translation>
    </message>
    <message>
        <source>The exact volume is that of every pair of faces over one another on the ground between the first and the last section of each line, as far to either side as the sections reach; ground counts once.</source>
        <translation>Le volume exact est celui de chaque paire de faces superposées sur le terrain entre le premier et le dernier profil de chaque ligne, aussi loin de chaque côté que vont les profils ; le terrain compte une fois.</translation>
    </message>
    <message>
        <source>The line turns sharply here: the section on the bisector says little about the ground beside either leg.</source>
        <translation>La ligne tourne brusquement ici : le profil sur la bissectrice dit peu du terrain le long de chaque côté.</translation>
    </message>
    <message>
        <source>The two surfaces do not lie over one another here, so that there is no area.</source>
        <translation>Les deux surfaces ne se superposent pas ici : il n&apos;y a pas d&apos;aire.</translation>
    </message>
    <message>
        <source>The upper and the lower surface are the same layer: choose two, or leave one of them blank.</source>
        <translation>Les surfaces supérieure et inférieure sont la même couche : choisissez-en deux, ou laissez-en une vide.</translation>
    </message>
    <message>
        <source>There is no exact volume to compare with, since it needs two TINs.</source>
        <translation>Il n&apos;y a pas de volume exact à comparer : il faut deux TIN.</translation>
    </message>
    <message>
        <source>Units</source>
        <translation>Unités</translation>
    </message>
    <message>
        <source>Usually the design. Left blank, the first of the surfaces that is not the upper one.</source>
        <translation>D&apos;ordinaire le projet. Laissé vide, la première des surfaces qui n&apos;est pas la supérieure.</translation>
    </message>
    <message>
        <source>Usually the ground. Cut is where it lies above the lower surface, fill where it lies below. Left blank, the first of the surfaces.</source>
        <translation>D&apos;ordinaire le terrain. Le déblai est là où elle est au-dessus de la surface inférieure, le remblai là où elle est au-dessous. Laissé vide, la première des surfaces.</translation>
    </message>
    <message>
        <source>Vertical exaggeration</source>
        <translation>Exagération verticale</translation>
    </message>
    <message>
        <source>Volumes are those in place: nothing is added for swell or taken off for shrinkage.</source>
        <translation>Les volumes sont ceux en place : rien n&apos;est ajouté pour le foisonnement ni ôté pour le tassement.</translation>
    </message>
    <message>
        <source>Volumes by average end areas and by the prismoidal formula stand beside the exact volume of the same strip of ground where both surfaces are TINs; the report says why they differ. Nothing is added for swell.</source>
        <translation>Les volumes par moyenne des aires extrêmes et par la formule prismoïdale sont à côté du volume exact de la même bande de terrain si les deux surfaces sont des TIN ; le rapport dit pourquoi ils diffèrent. Rien n&apos;est ajouté pour le foisonnement.</translation>
    </message>
    <message>
        <source>Where it differs from the one above. Left of the line, looking from its first to its last vertex; without a sign.</source>
        <translation>Là où elle diffère de la précédente. À gauche de la ligne, en regardant du premier au dernier sommet ; sans signe.</translation>
    </message>
    <message>
        <source>Where it differs from the one above. Right of the line, looking from its first to its last vertex; without a sign.</source>
        <translation>Là où elle diffère de la précédente. À droite de la ligne, en regardant du premier au dernier sommet ; sans signe.</translation>
    </message>
    <message>
        <source>Width</source>
        <translation>Largeur</translation>
    </message>
    <message>
        <source>Width to each side</source>
        <translation>Largeur de chaque côté</translation>
    </message>
    <message>
        <source>Width to the left</source>
        <translation>Largeur à gauche</translation>
    </message>
    <message>
        <source>Width to the right</source>
        <translation>Largeur à droite</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
    <message>
        <source>a section needs a width on one side at least.</source>
        <translation>un profil a besoin d&apos;une largeur d&apos;un côté au moins.</translation>
    </message>
    <message>
        <source>areas do not change in proportion to the distance from one section to the next; with a shorter interval the two come together.</source>
        <translation>les aires ne changent pas en proportion de la distance d&apos;un profil au suivant ; avec un intervalle plus court les deux se rejoignent.</translation>
    </message>
    <message>
        <source>by the prismoidal formula</source>
        <translation>par la formule prismoïdale</translation>
    </message>
    <message>
        <source>cross section,profile,station,end area,prismoidal,cut,fill,volume,earthwork,alignment,plot</source>
        <translation>profil en travers,coupe,abscisse,aire extrême,prismoïdale,déblai,remblai,volume,terrassement,axe,dessin</translation>
    </message>
    <message>
        <source>cut where “{upper}” lies above “{lower}”, fill where it lies below</source>
        <translation>déblai là où « {upper} » est au-dessus de « {lower} », remblai là où elle est au-dessous</translation>
    </message>
    <message>
        <source>cut {area}</source>
        <translation>déblai {area}</translation>
    </message>
    <message>
        <source>exact between the surfaces</source>
        <translation>exact entre les surfaces</translation>
    </message>
    <message>
        <source>fill {area}</source>
        <translation>remblai {area}</translation>
    </message>
    <message>
        <source>flagged, see the table</source>
        <translation>signalé, voir la table</translation>
    </message>
    <message>
        <source>it gives {count} sections, more than {most}: take a longer one.</source>
        <translation>il donne {count} profils, plus de {most} : prenez-en un plus long.</translation>
    </message>
    <message>
        <source>it must not be negative, write it without a sign.</source>
        <translation>ne doit pas être négatif, écrivez-le sans signe.</translation>
    </message>
    <message>
        <source>left</source>
        <translation>à gauche</translation>
    </message>
    <message>
        <source>right</source>
        <translation>à droite</translation>
    </message>
    <message>
        <source>sections cross each other on the inside of bends, where they count ground twice, and outside of bends they leave ground out.</source>
        <translation>les profils se croisent à l&apos;intérieur des courbes, où ils comptent le terrain deux fois, et à l&apos;extérieur ils en laissent de côté.</translation>
    </message>
    <message>
        <source>the line bends, and end areas count the distance along it, though ground beside it goes a longer or a shorter way round.</source>
        <translation>la ligne tourne, et les aires extrêmes comptent la distance le long d&apos;elle, alors que le terrain à côté fait un tour plus long ou plus court.</translation>
    </message>
    <message>
        <source>zone {id}</source>
        <translation>zone {id}</translation>
    </message>
    <message>
        <source>{count} more sections are to be looked at.</source>
        <translation>{count} autres profils sont à regarder.</translation>
    </message>
    <message>
        <source>{count} sections are flagged: read their fields “flag” and “why”.</source>
        <translation>{count} profils sont signalés : lisez leurs champs « flag » et « why ».</translation>
    </message>
    <message>
        <source>{count} sections are to be looked at.</source>
        <translation>{count} profils sont à regarder.</translation>
    </message>
    <message>
        <source>{count} sections cross others on the inside of bends within their width: volumes by end areas count the ground there twice and are wrong by it.</source>
        <translation>{count} profils en croisent d&apos;autres à l&apos;intérieur de courbes dans leur largeur : les volumes par aires extrêmes y comptent le terrain deux fois et sont faux d&apos;autant.</translation>
    </message>
    <message>
        <source>{count} sections on one line; surfaces: {surfaces}.</source>
        <translation>{count} profils sur une ligne ; surfaces : {surfaces}.</translation>
    </message>
    <message>
        <source>{count} sections on {lines} lines; surfaces: {surfaces}.</source>
        <translation>{count} profils sur {lines} lignes ; surfaces : {surfaces}.</translation>
    </message>
    <message>
        <source>{left} left, {right} right</source>
        <translation>{left} à gauche, {right} à droite</translation>
    </message>
    <message>
        <source>{name}: average end areas and the exact volume agree.</source>
        <translation>{name} : la moyenne des aires extrêmes et le volume exact concordent.</translation>
    </message>
    <message>
        <source>{name}: average end areas give {volume} less than the exact volume</source>
        <translation>{name} : la moyenne des aires extrêmes donne {volume} de moins que le volume exact</translation>
    </message>
    <message>
        <source>{name}: average end areas give {volume} more than the exact volume</source>
        <translation>{name} : la moyenne des aires extrêmes donne {volume} de plus que le volume exact</translation>
    </message>
    <message>
        <source>About {area} of ground lie beside two stretches of the line: end areas count it twice, the exact volume once.</source>
        <translation>Environ {area} de terrain sont le long de deux parties de la ligne : les aires extrêmes le comptent deux fois, le volume exact une fois.</translation>
    </message>
    <message>
        <source>Crosses the section at {station}, {offset} to the {side}, where the line comes near itself again: some ground belongs to both, and volumes by end areas count it twice.</source>
        <translation>Croise le profil à {station}, à {offset} {side}, là où la ligne repasse près d&apos;elle-même : du terrain appartient aux deux, et les volumes par aires extrêmes le comptent deux fois.</translation>
    </message>
</context>
<context>
    <name>DepthCheck</name>
    <message>
        <source>1 point</source>
        <translation>1 point</translation>
    </message>
    <message>
        <source>All of {whole} within tolerance: {least} to {most} off the depth asked.</source>
        <translation>Tout ({whole}) dans la tolérance : de {least} à {most} par rapport à la profondeur demandée.</translation>
    </message>
    <message>
        <source>Asked</source>
        <translation>Demandé</translation>
    </message>
    <message>
        <source>By zone</source>
        <translation>Par zone</translation>
    </message>
    <message>
        <source>Check of depths</source>
        <translation>Vérification des profondeurs</translation>
    </message>
    <message>
        <source>Cover over lines</source>
        <translation>Recouvrement des lignes</translation>
    </message>
    <message>
        <source>Deep, %</source>
        <translation>Trop profond, %</translation>
    </message>
    <message>
        <source>FAIL</source>
        <translation>NON CONFORME</translation>
    </message>
    <message>
        <source>Heights of bars are shares of the area; the outer bars hold all that lies beyond.</source>
        <translation>Les hauteurs des barres sont des parts de l&apos;aire ; les barres extrêmes contiennent tout ce qui est au-delà.</translation>
    </message>
    <message>
        <source>Heights of bars are shares of the points; the outer bars hold all that lies beyond.</source>
        <translation>Les hauteurs des barres sont des parts des points ; les barres extrêmes contiennent tout ce qui est au-delà.</translation>
    </message>
    <message>
        <source>Histogram</source>
        <translation>Histogramme</translation>
    </message>
    <message>
        <source>Histogram of deviations</source>
        <translation>Histogramme des écarts</translation>
    </message>
    <message>
        <source>How it was checked</source>
        <translation>Comment c&apos;est vérifié</translation>
    </message>
    <message>
        <source>INCOMPLETE</source>
        <translation>INCOMPLET</translation>
    </message>
    <message>
        <source>Least cover {least}, {asked} asked, at {station} from its start, near {x:.2f}, {y:.2f}.</source>
        <translation>Recouvrement minimal {least}, {asked} demandé, à {station} de son début, près de {x:.2f}, {y:.2f}.</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Ligne</translation>
    </message>
    <message>
        <source>Mean</source>
        <translation>Moyen</translation>
    </message>
    <message>
        <source>NOT CHECKED</source>
        <translation>NON VÉRIFIÉ</translation>
    </message>
    <message>
        <source>No cover is known: the line has no heights, or does not lie under the design.</source>
        <translation>Aucun recouvrement connu : la ligne n&apos;a pas de hauteurs, ou n&apos;est pas sous le projet.</translation>
    </message>
    <message>
        <source>No.</source>
        <translation>N°</translation>
    </message>
    <message>
        <source>North is up. Dotted: too shallow. Hatched: too deep. Plain: within tolerance. Bold numbers: zones. Crosses: the worst places.</source>
        <translation>Le nord est en haut. Pointillé : pas assez profond. Hachuré : trop profond. Uni : dans la tolérance. Nombres gras : zones. Croix : les pires endroits.</translation>
    </message>
    <message>
        <source>Nothing but narrow strips could be compared.</source>
        <translation>Seules des bandes étroites ont pu être comparées.</translation>
    </message>
    <message>
        <source>Nothing of {whole} within tolerance.</source>
        <translation>Rien ({whole}) dans la tolérance.</translation>
    </message>
    <message>
        <source>Nothing to compare: no data of both here.</source>
        <translation>Rien à comparer : pas de données des deux ici.</translation>
    </message>
    <message>
        <source>Off by</source>
        <translation>Écart</translation>
    </message>
    <message>
        <source>PASS</source>
        <translation>CONFORME</translation>
    </message>
    <message>
        <source>Plan of what passes and fails, north up</source>
        <translation>Plan de ce qui est conforme ou non, nord en haut</translation>
    </message>
    <message>
        <source>Point</source>
        <translation>Point</translation>
    </message>
    <message>
        <source>Points not checked</source>
        <translation>Points non vérifiés</translation>
    </message>
    <message>
        <source>Region, sq {unit}</source>
        <translation>Partie, {unit} carrés</translation>
    </message>
    <message>
        <source>Result</source>
        <translation>Résultat</translation>
    </message>
    <message>
        <source>Shallow, %</source>
        <translation>Pas assez, %</translation>
    </message>
    <message>
        <source>Strips beside upright steps, {area} in all, were not judged.</source>
        <translation>Des bandes le long de marches verticales, {area} en tout, n&apos;ont pas été jugées.</translation>
    </message>
    <message>
        <source>The first {most} of {count}; the layer holds all.</source>
        <translation>Les {most} premiers sur {count} ; la couche les contient tous.</translation>
    </message>
    <message>
        <source>Tolerance</source>
        <translation>Tolérance</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Quoi</translation>
    </message>
    <message>
        <source>Where</source>
        <translation>Où</translation>
    </message>
    <message>
        <source>Where (x, y)</source>
        <translation>Où (x, y)</translation>
    </message>
    <message>
        <source>Why</source>
        <translation>Pourquoi</translation>
    </message>
    <message>
        <source>Within, %</source>
        <translation>Dans, %</translation>
    </message>
    <message>
        <source>Worst places</source>
        <translation>Pires endroits</translation>
    </message>
    <message>
        <source>Zone</source>
        <translation>Zone</translation>
    </message>
    <message>
        <source>any</source>
        <translation>any</translation>
    </message>
    <message>
        <source>by zone</source>
        <translation>par zone</translation>
    </message>
    <message>
        <source>deeper</source>
        <translation>plus profond</translation>
    </message>
    <message>
        <source>depth found less depth asked, {unit}</source>
        <translation>profondeur trouvée moins demandée, {unit}</translation>
    </message>
    <message>
        <source>shallower</source>
        <translation>moins profond</translation>
    </message>
    <message>
        <source>too deep</source>
        <translation>trop profond</translation>
    </message>
    <message>
        <source>too shallow</source>
        <translation>pas assez profond</translation>
    </message>
    <message>
        <source>within tolerance</source>
        <translation>dans la tolérance</translation>
    </message>
    <message>
        <source>{count:.0f} points</source>
        <translation>{count:.0f} points</translation>
    </message>
    <message>
        <source>{count} points could not be checked; they are listed below.</source>
        <translation>{count} points n&apos;ont pas pu être vérifiés ; ils sont listés plus bas.</translation>
    </message>
    <message>
        <source>{length} have no data and were not checked.</source>
        <translation>{length} n&apos;ont pas de données et n&apos;ont pas été vérifiés.</translation>
    </message>
    <message>
        <source>{length} of {whole} have too little cover.</source>
        <translation>{length} sur {whole} sont trop peu recouverts.</translation>
    </message>
    <message>
        <source>{name}: {state}. {text}</source>
        <translation>{name} : {state}. {text}</translation>
    </message>
    <message>
        <source>{part} too deep, up to {off} more than asked.</source>
        <translation>{part} trop profond, jusqu&apos;à {off} de plus que demandé.</translation>
    </message>
    <message>
        <source>{part} too shallow, up to {off} less than asked.</source>
        <translation>{part} pas assez profond, jusqu&apos;à {off} de moins que demandé.</translation>
    </message>
    <message>
        <source>{passed} of {count} zones pass, {failed} fail, {rest} are not or not wholly checked.</source>
        <translation>{passed} zones sur {count} sont conformes, {failed} ne le sont pas, {rest} ne sont pas ou pas entièrement vérifiées.</translation>
    </message>
    <message>
        <source>{share:.1f} % of the zone ({area}) has no data and was not checked.</source>
        <translation>{share:.1f} % de la zone ({area}) n&apos;a pas de données et n&apos;a pas été vérifié.</translation>
    </message>
    <message>
        <source>{share:.1f} % of {whole} within tolerance.</source>
        <translation>{share:.1f} % de {whole} dans la tolérance.</translation>
    </message>
    <message>
        <source>Deepest</source>
        <translation>Le plus profond</translation>
    </message>
    <message>
        <source>Deviations, depth found less depth asked: + is deeper, - is shallower</source>
        <translation>Écarts, profondeur trouvée moins profondeur demandée : + est plus profond, - est moins profond</translation>
    </message>
    <message>
        <source>Shallowest</source>
        <translation>Le moins profond</translation>
    </message>
</context>
<context>
    <name>DepthRaster</name>
    <message>
        <source>A GeoTIFF with the grid, CRS, type and nodata value of the design. Its description and metadata say the convention and the unit.</source>
        <translation>Un GeoTIFF avec la grille, le SCR, le type et la valeur sans données du projet. Sa description et ses métadonnées disent la convention et l&apos;unité.</translation>
    </message>
    <message>
        <source>Depth surface</source>
        <translation>Surface de profondeur</translation>
    </message>
    <message>
        <source>Depth surface (raster)</source>
        <translation>Surface de profondeur (raster)</translation>
    </message>
    <message>
        <source>Depth surface, {name}</source>
        <translation>Surface de profondeur, {name}</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>Design lowered by zone depths</source>
        <translation>Projet abaissé des profondeurs des zones</translation>
    </message>
    <message>
        <source>Heights that read as missing</source>
        <translation>Altitudes qui se lisent comme absentes</translation>
    </message>
    <message>
        <source>Highest height of the result</source>
        <translation>Altitude la plus haute du résultat</translation>
    </message>
    <message>
        <source>Lowest height of the result</source>
        <translation>Altitude la plus basse du résultat</translation>
    </message>
    <message>
        <source>Makes the surface that lies a given depth below a design raster, zone by zone, on the grid of the design.</source>
        <translation>Fait la surface située à une profondeur donnée sous un raster de projet, zone par zone, sur la grille du projet.</translation>
    </message>
    <message>
        <source>Number of zones</source>
        <translation>Nombre de zones</translation>
    </message>
    <message>
        <source>Pixels that have a depth</source>
        <translation>Pixels qui ont une profondeur</translation>
    </message>
    <message>
        <source>Plan area of these pixels</source>
        <translation>Aire en plan de ces pixels</translation>
    </message>
    <message>
        <source>The finished surface: a raster of heights, whose first band is taken. Its CRS must be projected and its rows must not be rotated. For a mesh or polygons take “Depth surface (TIN)”.</source>
        <translation>La surface finie : un raster d&apos;altitudes, dont la première bande est prise. Son SCR doit être projeté et ses rangées non tournées. Pour un maillage ou des polygones, prenez « Surface de profondeur (TIN) ».</translation>
    </message>
    <message>
        <source>Zone {zone}: depth {depth}, {count} pixels</source>
        <translation>Zone {zone} : profondeur {depth}, {count} pixels</translation>
    </message>
    <message>
        <source>Zones must not overlap. Where they do, the run stops and names both and the place, unless a priority field settles which one wins.</source>
        <translation>Les zones ne doivent pas se recouvrir. Si elles le font, le traitement s&apos;arrête et nomme les deux et l&apos;endroit, sauf si un champ de priorité décide laquelle l&apos;emporte.</translation>
    </message>
    <message>
        <source>Zones without a pixel</source>
        <translation>Zones sans pixel</translation>
    </message>
    <message>
        <source>{count} heights came out as the nodata value and read as missing, the first at {x:.3f}, {y:.3f}: give the design another nodata value.</source>
        <translation>{count} altitudes sont égales à la valeur sans données et se lisent comme absentes, la première en {x:.3f}, {y:.3f} : donnez au projet une autre valeur sans données.</translation>
    </message>
    <message>
        <source>{count} zones hold the centre of no pixel with data and changed nothing: {ids}.</source>
        <translation>{count} zones ne contiennent le centre d&apos;aucun pixel avec données et n&apos;ont rien changé : {ids}.</translation>
    </message>
    <message>
        <source>{count} zones reach beyond the design, where there is no result: {ids}.</source>
        <translation>{count} zones dépassent le projet, là où il n&apos;y a pas de résultat : {ids}.</translation>
    </message>
    <message>
        <source>“{name}” has several bands: the first is taken for heights.</source>
        <translation>« {name} » a plusieurs bandes : la première est prise pour les altitudes.</translation>
    </message>
    <message>
        <source>“{name}” is not a raster: take “Depth surface (TIN)” for it, or choose a raster.</source>
        <translation>« {name} » n&apos;est pas un raster : prenez pour lui « Surface de profondeur (TIN) », ou choisissez un raster.</translation>
    </message>
    <message>
        <source>“{path}” is the design itself: give the result another name.</source>
        <translation>« {path} » est le projet lui-même : donnez un autre nom au résultat.</translation>
    </message>
    <message>
        <source>“{path}”: the result is a GeoTIFF, give it a name in .tif.</source>
        <translation>« {path} » : le résultat est un GeoTIFF, donnez-lui un nom en .tif.</translation>
    </message>
    <message>
        <source>At {count} places a batter had met nothing after {most} pixels and was cut off: the ground rises as steeply as the batter; make it steeper or count it from the design.</source>
        <translation>À {count} endroits un talus n’avait rien rencontré après {most} pixels et a été coupé : le terrain monte aussi raide que le talus ; le raidir ou le compter depuis le projet.</translation>
    </message>
    <message>
        <source>Batters: {count} pixels</source>
        <translation>Talus : {count} pixels</translation>
    </message>
    <message>
        <source>Pixels on batters</source>
        <translation>Pixels sur les talus</translation>
    </message>
    <message>
        <source>Pixels onto which the design was carried on</source>
        <translation>Pixels sur lesquels le projet a été prolongé</translation>
    </message>
    <message>
        <source>Plan area of the batters</source>
        <translation>Aire en plan des talus</translation>
    </message>
    <message>
        <source>The design was carried on onto {count} pixels without data.</source>
        <translation>Le projet a été prolongé sur {count} pixels sans donnée.</translation>
    </message>
    <message>
        <source>Things that may be wrong</source>
        <translation>Points douteux</translation>
    </message>
    <message>
        <source>{count} pixels of zones lie more than {most} pixels from any data and stay without: the design is not carried on that far.</source>
        <translation>{count} pixels de zones sont à plus de {most} pixels de toute donnée et restent vides : le projet n’est pas prolongé si loin.</translation>
    </message>
    <message>
        <source>A depth square to the slope is turned into a plumb one by √(1 + g²), g being the slope of the design at the pixel by Horn&apos;s weights (3 × 3 pixels). This is exact on planes. Within one pixel of a break g is the mean of both sides, and the line in which the two moved planes would meet is missing: use the TIN where that matters.</source>
        <translation>Une profondeur perpendiculaire à la pente devient verticale par √(1 + g²), g étant la pente du projet au pixel selon les poids de Horn (3 × 3 pixels). C’est exact sur les plans. À moins d’un pixel d’une ligne de rupture, g est la moyenne des deux côtés, et la ligne où les deux plans décalés se rencontreraient manque : prendre le TIN là où cela compte.</translation>
    </message>
    <message>
        <source>CRS, grid and nodata value are those of the design, and other pixels without data stay as they are. Whole-number heights become float32 (8 and 16 bits) or float64. The raster is worked through in windows that do not influence the result, so that its size does not matter.</source>
        <translation>Le SCR, la grille et la valeur nulle sont ceux du projet, et les autres pixels sans donnée restent tels quels. Les altitudes entières deviennent float32 (8 et 16 bits) ou float64. Le raster est traité par fenêtres sans influence sur le résultat : sa taille n’importe pas.</translation>
    </message>
    <message>
        <source>Carried on, the design gives pixels without data, in zones and on batters only, the height of the nearest pixel with data continued with its slope, up to {most} pixels away. Nothing lies outside the raster itself.</source>
        <translation>Prolongé, le projet donne aux pixels sans donnée, dans les zones et sur les talus seulement, l’altitude du pixel renseigné le plus proche continuée avec sa pente, jusqu’à {most} pixels. Rien ne se trouve hors du raster lui-même.</translation>
    </message>
    <message>
        <source>The bottom may carry on past the edge of its zone, and its sides climb on a batter until they meet the design or a neighbour. Distances are measured from the pixel&apos;s centre to the border itself, never counted in pixels. Counted from the design, the depth lessens by 1 for each run of the ratio. Counted from the level, a side starts from the height of the bottom at the foot of its perpendicular, taken between pixel centres, and is followed pixel by pixel until it meets the surface: where the design breaks sharply at the border, such as at the face of a curb, that height is only as sharp as the pixels.</source>
        <translation>Le fond peut se prolonger au-delà du bord de sa zone, et ses côtés montent en talus jusqu’à rencontrer le projet ou un voisin. Les distances vont du centre du pixel à la limite elle-même, jamais comptées en pixels. Compté depuis le projet, le talus réduit la profondeur de 1 pour chaque longueur du rapport. Compté depuis l’horizontale, un côté part de l’altitude du fond au pied de sa perpendiculaire, prise entre les centres de pixels, et il est suivi pixel par pixel jusqu’à la surface : là où le projet se brise net à la limite, comme à la face d’une bordure, cette altitude n’est pas plus fine que les pixels.</translation>
    </message>
    <message>
        <source>subgrade,formation,depth,lower,offset,excavation,topsoil,strip,section,batter,side slope,DEM,DTM,GeoTIFF,plumb</source>
        <translation>fond de forme,plateforme,profondeur,abaisser,décalage,terrassement,terre végétale,décapage,coupe,talus,fruit,MNE,MNT,GeoTIFF,vertical</translation>
    </message>
    <message>
        <source>A pixel belongs to a zone when its centre lies in the zone; a centre exactly on a border belongs to the zone left of it or, where the border runs along the row, below it. Each height becomes height less depth, rounded once to the type of the design (float32 or float64). “Depth surface (TIN)” gives the same heights at pixel centres where the design is a TIN, but for what is said below of slopes and feet taken from pixels.</source>
        <translation>Un pixel appartient à une zone quand son centre s’y trouve ; un centre exactement sur une limite appartient à la zone à gauche ou, si la limite suit la ligne de pixels, à celle du dessous. Chaque altitude devient altitude moins profondeur, arrondie une seule fois au type du projet (float32 ou float64). « Surface de profondeur (TIN) » donne les mêmes altitudes aux centres des pixels là où le projet est un TIN, hormis ce qui est dit plus bas des pentes et des pieds de talus pris sur les pixels.</translation>
    </message>
</context>
<context>
    <name>DepthReport</name>
    <message>
        <source>Area on the slope</source>
        <translation>Aire selon la pente</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Depth (+ below the design)</source>
        <translation>Profondeur (+ sous le projet)</translation>
    </message>
    <message>
        <source>Depth surface</source>
        <translation>Surface de profondeur</translation>
    </message>
    <message>
        <source>Depths are plumb: measured vertically. Bottoms lie exactly on the planes of the design, moved straight down.</source>
        <translation>Les profondeurs sont d&apos;aplomb : mesurées à la verticale. Les fonds sont exactement sur les plans du projet, descendus tout droit.</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>How it was made</source>
        <translation>Comment c&apos;est fait</translation>
    </message>
    <message>
        <source>Nothing was flagged.</source>
        <translation>Rien n&apos;a été signalé.</translation>
    </message>
    <message>
        <source>Plan area</source>
        <translation>Aire en plan</translation>
    </message>
    <message>
        <source>Plan unit</source>
        <translation>Unité en plan</translation>
    </message>
    <message>
        <source>Steps between depths lie in the deeper zone and run {run} in plan at least: they stand for upright sides, which no ground holds by itself.</source>
        <translation>Les marches entre profondeurs sont dans la zone plus profonde et prennent au moins {run} en plan : elles représentent des côtés verticaux, qu&apos;aucun terrain ne tient de lui-même.</translation>
    </message>
    <message>
        <source>Unit of heights and depths</source>
        <translation>Unité des altitudes et des profondeurs</translation>
    </message>
    <message>
        <source>Volume above it</source>
        <translation>Volume au-dessus</translation>
    </message>
    <message>
        <source>Volume below the design</source>
        <translation>Volume sous le projet</translation>
    </message>
    <message>
        <source>Volumes lie between the design and this surface; existing ground is not considered, and nothing is added for swell.</source>
        <translation>Les volumes sont entre le projet et cette surface ; le terrain existant n&apos;est pas considéré, et rien n&apos;est ajouté pour le foisonnement.</translation>
    </message>
    <message>
        <source>Zone</source>
        <translation>Zone</translation>
    </message>
    <message>
        <source>Zone borders were moved by at most {move} to fit the design.</source>
        <translation>Les bords des zones ont été déplacés de {move} au plus pour s&apos;ajuster au projet.</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
    <message>
        <source>outside all</source>
        <translation>hors de toutes</translation>
    </message>
    <message>
        <source>the design itself</source>
        <translation>le projet lui-même</translation>
    </message>
    <message>
        <source>{count} things are flagged below: look at them first.</source>
        <translation>{count} points sont signalés ci-dessous : regardez-les d&apos;abord.</translation>
    </message>
    <message>
        <source>Plan of the zones, north up, darker is deeper</source>
        <translation>Plan des zones, nord en haut, plus sombre est plus profond</translation>
    </message>
    <message>
        <source>The zones as given, cut off at the frame of the surface; darker is deeper.</source>
        <translation>Les zones telles que données, coupées au cadre de la surface ; plus sombre est plus profond.</translation>
    </message>
    <message>
        <source>Volume above the design {above}.</source>
        <translation>Volume au-dessus du projet {above}.</translation>
    </message>
    <message>
        <source>{count} zones over {area}; volume below the design {below}.</source>
        <translation>{count} zones sur {area} ; volume sous le projet {below}.</translation>
    </message>
    <message>
        <source>A batter in this file is a shape, not a proof that the ground will stand at it.</source>
        <translation>Un talus dans ce fichier est une forme, pas la preuve que le terrain y tiendra.</translation>
    </message>
    <message>
        <source>A square thickness is measured at right angles to each face of the design: plumb it is thickness × √(1 + slope²). Where more than three planes meet in a point, the bottom takes the nearest point; the largest distance left is {residual}.</source>
        <translation>Une épaisseur perpendiculaire se mesure d&apos;équerre à chaque facette du projet&#xa0;: d&apos;aplomb, elle vaut épaisseur × √(1 + pente²). Là où plus de trois plans se rencontrent en un point, le fond prend le point le plus proche&#xa0;; le plus grand écart restant est {residual}.</translation>
    </message>
    <message>
        <source>Areas and volumes</source>
        <translation>Aires et volumes</translation>
    </message>
    <message>
        <source>Around outside corners batters are cones.</source>
        <translation>Autour des angles saillants, les talus sont des cônes.</translation>
    </message>
    <message>
        <source>Around outside corners the batter’s planes are carried on until they meet.</source>
        <translation>Autour des angles saillants, les plans du talus sont prolongés jusqu&apos;à leur rencontre.</translation>
    </message>
    <message>
        <source>Batters are run per rise above the horizontal, in the section at right angles to the edge, and end where they meet the design or a neighbour’s surface.</source>
        <translation>Les talus sont base sur hauteur depuis l&apos;horizontale, dans la coupe d&apos;équerre au bord, et finissent où ils rencontrent le projet ou la surface d&apos;une voisine.</translation>
    </message>
    <message>
        <source>Batters are the run over which the depth below the design becomes one less, so that they end where the depth has run out, or at a neighbour’s surface.</source>
        <translation>Les talus sont la base sur laquelle la profondeur sous le projet diminue de un&#xa0;; ils finissent donc où la profondeur est épuisée, ou à la surface d&apos;une voisine.</translation>
    </message>
    <message>
        <source>Bottom carried on by</source>
        <translation>Fond prolongé de</translation>
    </message>
    <message>
        <source>Section: how the zone is dug, not to scale</source>
        <translation>Coupe&#xa0;: comment la zone est creusée, sans échelle</translation>
    </message>
    <message>
        <source>Side (run per rise)</source>
        <translation>Talus (base sur hauteur)</translation>
    </message>
    <message>
        <source>Steps count in the plan area and the volumes, not in the area on the slope; bottoms carried on and batters count with the zone they belong to.</source>
        <translation>Les marches comptent dans l&apos;aire en plan et les volumes, pas dans l&apos;aire selon la pente&#xa0;; fonds prolongés et talus comptent avec la zone dont ils font partie.</translation>
    </message>
    <message>
        <source>Zones by feature id.</source>
        <translation>Zones par identifiant d&apos;entité.</translation>
    </message>
    <message>
        <source>Zones: {names}. Not to scale.</source>
        <translation>Zones&#xa0;: {names}. Sans échelle.</translation>
    </message>
    <message>
        <source>and {depth} square to its slope</source>
        <translation>et {depth} perpendiculairement à sa pente</translation>
    </message>
    <message>
        <source>batter</source>
        <translation>talus</translation>
    </message>
    <message>
        <source>bottom carried on</source>
        <translation>fond prolongé</translation>
    </message>
    <message>
        <source>bottom carried on {width} past the edge</source>
        <translation>fond prolongé de {width} au-delà du bord</translation>
    </message>
    <message>
        <source>design</source>
        <translation>projet</translation>
    </message>
    <message>
        <source>of it batters</source>
        <translation>dont talus</translation>
    </message>
    <message>
        <source>on the design itself</source>
        <translation>sur le projet lui-même</translation>
    </message>
    <message>
        <source>side upright</source>
        <translation>côté vertical</translation>
    </message>
    <message>
        <source>side {ratio}:1, run per depth below the design</source>
        <translation>talus {ratio}:1, base sur profondeur</translation>
    </message>
    <message>
        <source>side {ratio}:1, run per rise from level</source>
        <translation>talus {ratio}:1, base sur hauteur</translation>
    </message>
    <message>
        <source>upright</source>
        <translation>vertical</translation>
    </message>
    <message>
        <source>zone’s edge</source>
        <translation>bord de la zone</translation>
    </message>
    <message>
        <source>{count} more ways of digging are not drawn; see the table above.</source>
        <translation>{count} autres façons de creuser ne sont pas dessinées&#xa0;; voyez le tableau plus haut.</translation>
    </message>
    <message>
        <source>{depth} above the design, plumb</source>
        <translation>{depth} au-dessus du projet, d&apos;aplomb</translation>
    </message>
    <message>
        <source>{depth} below the design, plumb</source>
        <translation>{depth} sous le projet, d&apos;aplomb</translation>
    </message>
    <message>
        <source>{depth} square</source>
        <translation>{depth} perpendiculaires</translation>
    </message>
    <message>
        <source>{depth} square to the slope of the design</source>
        <translation>{depth} perpendiculairement à la pente</translation>
    </message>
    <message>
        <source>Past the edge of the design, over {area} in plan, this surface lies below the slope of the design carried on.</source>
        <translation>Au-delà du bord du projet, sur {area} en plan, cette surface est sous la pente prolongée du projet.</translation>
    </message>
</context>
<context>
    <name>DepthTin</name>
    <message>
        <source>Area of the zones on the slope, without steps</source>
        <translation>Aire des zones selon la pente, sans marches</translation>
    </message>
    <message>
        <source>Depth faces, {name}</source>
        <translation>Facettes de profondeur, {name}</translation>
    </message>
    <message>
        <source>Depth surface</source>
        <translation>Surface de profondeur</translation>
    </message>
    <message>
        <source>Depth surface (TIN)</source>
        <translation>Surface de profondeur (TIN)</translation>
    </message>
    <message>
        <source>Depth surface, {name}</source>
        <translation>Surface de profondeur, {name}</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>Faces</source>
        <translation>Facettes</translation>
    </message>
    <message>
        <source>Largest move of a zone border</source>
        <translation>Plus grand déplacement d&apos;un bord de zone</translation>
    </message>
    <message>
        <source>Makes the surface that lies a given depth below a design, zone by zone, as a TIN that fits without cracks.</source>
        <translation>Fait la surface située à une profondeur donnée sous un projet, zone par zone, en un TIN qui joint sans fissures.</translation>
    </message>
    <message>
        <source>Number of faces</source>
        <translation>Nombre de facettes</translation>
    </message>
    <message>
        <source>Number of zones</source>
        <translation>Nombre de zones</translation>
    </message>
    <message>
        <source>Plan area of the zones</source>
        <translation>Aire en plan des zones</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Run of the narrowest step (empty without steps)</source>
        <translation>Largeur de la marche la plus étroite (vide sans marches)</translation>
    </message>
    <message>
        <source>The finished surface: a mesh layer, or a polygon layer with heights (triangles or planar faces). Its CRS must be projected. For a raster take “Depth surface (raster)”.</source>
        <translation>La surface finie : une couche de maillage, ou une couche de polygones avec altitudes (triangles ou facettes planes). Son SCR doit être projeté. Pour un raster, prenez « Surface de profondeur (raster) ».</translation>
    </message>
    <message>
        <source>The step had to run less than asked for, because the face of the design is small.</source>
        <translation>La marche a dû prendre moins que demandé, car la facette du projet est petite.</translation>
    </message>
    <message>
        <source>Things that may be wrong</source>
        <translation>Ce qui peut être faux</translation>
    </message>
    <message>
        <source>Volume between the design and what lies above it</source>
        <translation>Volume entre le projet et ce qui est au-dessus</translation>
    </message>
    <message>
        <source>Volume between the design and what lies below it</source>
        <translation>Volume entre le projet et ce qui est au-dessous</translation>
    </message>
    <message>
        <source>Zone borders contradict each other here: check the depth, and whether faces of the design overlap.</source>
        <translation>Les bords des zones se contredisent ici : vérifiez la profondeur, et si des facettes du projet se recouvrent.</translation>
    </message>
    <message>
        <source>Zones must not overlap. Where they do, the run stops and names both and the place, unless a priority field settles which one wins.</source>
        <translation>Les zones ne doivent pas se recouvrir. Si elles le font, le traitement s&apos;arrête et nomme les deux et l&apos;endroit, sauf si un champ de priorité décide laquelle l&apos;emporte.</translation>
    </message>
    <message>
        <source>{faces} faces; volume below the design {below:.2f}, above it {above:.2f} cubic {unit}; zone borders moved by at most {move:.2g} {unit}.</source>
        <translation>{faces} facettes ; volume sous le projet {below:.2f}, au-dessus {above:.2f} {unit} cubes ; bords des zones déplacés de {move:.2g} {unit} au plus.</translation>
    </message>
    <message>
        <source>“{name}” is a raster: take “Depth surface (raster)” for it, or choose a mesh or polygons with heights.</source>
        <translation>« {name} » est un raster : prenez pour lui « Surface de profondeur (raster) », ou choisissez un maillage ou des polygones avec altitudes.</translation>
    </message>
    <message>
        <source>Field with the name of each zone</source>
        <translation>Champ du nom de chaque zone</translation>
    </message>
    <message>
        <source>What people call each zone, for the report and the faces. Left blank, a field called “name” is used if there is one.</source>
        <translation>Le nom courant de chaque zone, pour le rapport et les facettes. Laissé vide, un champ appelé « name » sert s&apos;il existe.</translation>
    </message>
    <message>
        <source>Largest miss of a thickness square to the slope</source>
        <translation>Plus grand écart à une épaisseur perpendiculaire</translation>
    </message>
    <message>
        <source>One triangle with heights a feature, with the fields: zone (feature id, empty outside all), name, depth (plumb, mean of the corners, + below the design), depth_min and depth_max of the corners, part (design, bottom, step, batter), parent (face of the design, from 1), flag and why for faces to look at.</source>
        <translation>Un triangle avec altitudes par entité, avec les champs&#xa0;: zone (identifiant de l&apos;entité, vide hors de toutes), name, depth (d&apos;aplomb, moyenne des sommets, + sous le projet), depth_min et depth_max des sommets, part (design, bottom, step, batter), parent (facette du projet, à partir de 1), flag et why pour les facettes à regarder.</translation>
    </message>
    <message>
        <source>Plan area of the batters</source>
        <translation>Aire en plan des talus</translation>
    </message>
    <message>
        <source>Plan area of the bottoms</source>
        <translation>Aire en plan des fonds</translation>
    </message>
    <message>
        <source>The surface as a mesh file, exact to the last digit, with the depth, the zone and the part (0 design, 1 bottom, 2 step, 3 batter) of each face as datasets.</source>
        <translation>La surface en fichier de maillage, exacte au dernier chiffre, avec la profondeur, la zone et la partie (0 projet, 1 fond, 2 marche, 3 talus) de chaque facette comme jeux de données.</translation>
    </message>
    <message>
        <source>There is no design here: its slope was carried on from the edge.</source>
        <translation>Il n&apos;y a pas de projet ici&#xa0;: sa pente a été prolongée depuis le bord.</translation>
    </message>
    <message>
        <source>A page with depth, side, areas and volume of each zone, a plan, drawn sections, what was flagged, and the cautions.</source>
        <translation>Une page avec profondeur, talus, aires et volume de chaque zone, un plan, des coupes dessinées, ce qui a été signalé, et les précautions.</translation>
    </message>
    <message>
        <source>Bottoms may carry on past the edge of their zone; where they meet, the deeper one wins. From the edge of a bottom the side climbs on its batter until it meets the design or a neighbour’s surface. A side without a batter is a step: a face in the deeper zone that runs 0.001 of the plan unit. It stands for an upright side, not for a slope that will hold.</source>
        <translation>Les fonds peuvent se prolonger au-delà du bord de leur zone&#xa0;; là où ils se rencontrent, le plus profond l&apos;emporte. Du bord d&apos;un fond, le côté monte selon son talus jusqu&apos;à rencontrer le projet ou la surface d&apos;une voisine. Un côté sans talus est une marche&#xa0;: une facette dans la zone plus profonde, large de 0,001 unité du plan. Elle représente un côté vertical, pas une pente qui tiendra.</translation>
    </message>
    <message>
        <source>Plan area past the edge of the design</source>
        <translation>Aire en plan au-delà du bord du projet</translation>
    </message>
    <message>
        <source>The borders of the zones are cut exactly into the design: every bottom keeps the planes of the design, moved straight down by the depth of its zone, or at right angles by a thickness measured square to the slope.</source>
        <translation>Les bords des zones sont découpés exactement dans le projet&#xa0;: chaque fond garde les plans du projet, descendus tout droit de la profondeur de sa zone, ou perpendiculairement d&apos;une épaisseur mesurée d&apos;équerre à la pente.</translation>
    </message>
    <message>
        <source>The thickness square to the slope is not kept at a corner of this face: more planes meet there than one point can serve, or faces would have folded over.</source>
        <translation>L&apos;épaisseur perpendiculaire n&apos;est pas gardée à un sommet de cette facette&#xa0;: plus de plans s&apos;y rencontrent qu&apos;un point n&apos;en peut servir, ou des facettes se seraient repliées.</translation>
    </message>
    <message>
        <source>subgrade,formation,depth,lower,offset,excavation,topsoil,strip,section,TIN,mesh,plumb,square,thickness,batter,side slope,widen,daylight,extend</source>
        <translation>fond de forme,arase,profondeur,abaisser,décalage,fouille,terre végétale,décapage,structure,TIN,maillage,aplomb,perpendiculaire,épaisseur,talus,pente,élargir,prolonger</translation>
    </message>
</context>
<context>
    <name>Environment</name>
    <message>
        <source>Undercourse cannot work in this QGIS because {found}: {remedy}.</source>
        <translation>Undercourse ne peut pas fonctionner dans ce QGIS, car {found} : {remedy}.</translation>
    </message>
    <message>
        <source>Undercourse needs Python 3.11 or newer, and this QGIS runs on {found}: {remedy}.</source>
        <translation>Undercourse demande Python 3.11 ou plus récent, et ce QGIS tourne avec {found} : {remedy}.</translation>
    </message>
    <message>
        <source>close QGIS, open Terminal, run: {python} -m pip install --upgrade {wanted} {keep} and start QGIS again</source>
        <translation>fermez QGIS, ouvrez Terminal, lancez : {python} -m pip install --upgrade {wanted} {keep} et redémarrez QGIS</translation>
    </message>
    <message>
        <source>close QGIS, open the OSGeo4W Shell from its start menu folder, run: python -m pip install --upgrade {wanted} {keep} and start QGIS again</source>
        <translation>fermez QGIS, ouvrez l&apos;OSGeo4W Shell depuis son dossier du menu Démarrer, lancez : python -m pip install --upgrade {wanted} {keep} et redémarrez QGIS</translation>
    </message>
    <message>
        <source>close QGIS, run: sudo apt install python3-shapely and, where that is still older than 2.1, run: {build} and start QGIS again</source>
        <translation>fermez QGIS, lancez : sudo apt install python3-shapely et, si c&apos;est encore plus ancien que 2.1, lancez : {build} et redémarrez QGIS</translation>
    </message>
    <message>
        <source>install QGIS 3.40 or newer from its current disk image</source>
        <translation>installez QGIS 3.40 ou plus récent depuis son image disque actuelle</translation>
    </message>
    <message>
        <source>install QGIS 3.40 or newer with its current installer</source>
        <translation>installez QGIS 3.40 ou plus récent avec son installateur actuel</translation>
    </message>
    <message>
        <source>numpy cannot be loaded ({why})</source>
        <translation>numpy ne peut pas être chargé ({why})</translation>
    </message>
    <message>
        <source>shapely cannot be loaded ({why})</source>
        <translation>shapely ne peut pas être chargé ({why})</translation>
    </message>
    <message>
        <source>shapely is version {found} and 2.1 is needed</source>
        <translation>shapely est en version {found} et il faut la 2.1</translation>
    </message>
    <message>
        <source>shapely {found} does not work together with it ({why})</source>
        <translation>shapely {found} ne fonctionne pas avec lui ({why})</translation>
    </message>
    <message>
        <source>use Debian 12, Ubuntu 24.04 or newer with QGIS 3.40 or newer</source>
        <translation>utilisez Debian 12, Ubuntu 24.04 ou plus récent avec QGIS 3.40 ou plus récent</translation>
    </message>
</context>
<context>
    <name>ExtendSurface</name>
    <message>
        <source>A grade is given but the slope of the strip is not “given grade”: choose that, or leave the grade blank.</source>
        <translation>Une pente est donnée, mais la pente de la bande n&apos;est pas « pente donnée » : choisissez-la, ou laissez la pente vide.</translation>
    </message>
    <message>
        <source>Across a bay, a hole or a gap between two parts of the surface that is narrower than twice the distance the strips stop short of the middle: nothing is bridged. The run says where and how wide.</source>
        <translation>Dans une échancrure, un trou ou un intervalle entre deux parties de la surface plus étroits que deux fois la distance, les bandes s&apos;arrêtent avant le milieu : rien n&apos;est enjambé. Le journal dit où, et avec quelle largeur.</translation>
    </message>
    <message>
        <source>Adds a strip beyond the edges of a design: its slope carried on, a given grade, or level.</source>
        <translation>Ajoute une bande au-delà des bords d&apos;un projet : sa pente continuée, une pente donnée, ou de niveau.</translation>
    </message>
    <message>
        <source>At a corner the planes of the two strips meet in a line: a crown or a flowline goes on as it ran. Where that line does not run through the corner the strips are blended, and the run says how far apart they were.</source>
        <translation>Dans un coin, les plans des deux bandes se rejoignent en une ligne : une crête ou un fil d&apos;eau continue comme il allait. Là où cette ligne ne passe pas par le coin, les bandes sont raccordées, et le journal dit de combien elles s&apos;écartaient.</translation>
    </message>
    <message>
        <source>Carry the edges of holes on too</source>
        <translation>Prolonger aussi les bords des trous</translation>
    </message>
    <message>
        <source>Carry the slope on</source>
        <translation>Continuer la pente</translation>
    </message>
    <message>
        <source>Carry the slope on: the plane of the face at the edge goes on. Given grade: at right angles to the edge the strip has the grade below. Level: at right angles to the edge it has none. Along the edge it always follows the edge. Faces that are upright, steeper than 10 to 1 or too thin to have a slope are carried on level.</source>
        <translation>Continuer la pente : le plan de la facette au bord continue. Pente donnée : perpendiculairement au bord, la bande a la pente ci-dessous. De niveau : perpendiculairement au bord, elle n&apos;en a pas. Le long du bord, elle suit toujours le bord. Les facettes verticales, plus raides que 10 pour 1 ou trop minces pour avoir une pente sont prolongées de niveau.</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>Distance</source>
        <translation>Distance</translation>
    </message>
    <message>
        <source>Each edge of the border gets a strip at right angles to it. The given vertices and faces stay as they are, to the last digit; the new faces join them without cracks and never overlap. Outside corners stand out as a mitre of up to twice the distance, sharper ones are squared off; at inside corners the strips meet.</source>
        <translation>Chaque arête du bord reçoit une bande perpendiculaire. Les sommets et facettes donnés restent tels quels, au dernier chiffre près ; les nouvelles facettes les rejoignent sans fissure et ne se recouvrent jamais. Les coins saillants sont à onglet, jusqu&apos;à deux fois la distance, les plus aigus sont coupés d&apos;équerre ; dans les coins rentrants, les bandes se rejoignent.</translation>
    </message>
    <message>
        <source>Edges lie within</source>
        <translation>Écart admis des arêtes</translation>
    </message>
    <message>
        <source>Extend a surface</source>
        <translation>Prolonger une surface</translation>
    </message>
    <message>
        <source>Extended surface</source>
        <translation>Surface prolongée</translation>
    </message>
    <message>
        <source>Extended surface, {name}</source>
        <translation>Surface prolongée, {name}</translation>
    </message>
    <message>
        <source>Faces</source>
        <translation>Faces</translation>
    </message>
    <message>
        <source>Faces, {name} extended</source>
        <translation>Faces, {name} prolongé</translation>
    </message>
    <message>
        <source>Give the grade of the strip, e.g. -2 %.</source>
        <translation>Donnez la pente de la bande, p. ex. -2 %.</translation>
    </message>
    <message>
        <source>Given grade</source>
        <translation>Pente donnée</translation>
    </message>
    <message>
        <source>Grade</source>
        <translation>Pente</translation>
    </message>
    <message>
        <source>Grade of the strip at right angles to the edge, going away from the design: + rises outward, - falls outward. In percent (-2, -2 %), as run to rise (3:1), or as 1 in 20. For “given grade” only.</source>
        <translation>Pente de la bande perpendiculairement au bord, en s&apos;éloignant du projet : + monte vers l&apos;extérieur, - descend vers l&apos;extérieur. En pour cent (-2, -2 %), en base sur hauteur (3:1), ou en 1 in 20. Pour « pente donnée » seulement.</translation>
    </message>
    <message>
        <source>Holes narrower than twice the distance stay open by a slit. Where lines pick edges, the lines alone decide.</source>
        <translation>Les trous plus étroits que deux fois la distance restent ouverts d&apos;une fente. Là où des lignes choisissent les arêtes, elles seules décident.</translation>
    </message>
    <message>
        <source>How far apart blended strips were, at most</source>
        <translation>Plus grand écart entre bandes raccordées</translation>
    </message>
    <message>
        <source>How far the surface goes on, in plan and at right angles to each edge. With a unit, or in the unit of the CRS: 1 ft, 0.5 m.</source>
        <translation>Jusqu&apos;où la surface continue, en plan et perpendiculairement à chaque arête. Avec une unité, ou dans l&apos;unité du SCR : 1 ft, 0.5 m.</translation>
    </message>
    <message>
        <source>How far, in plan, a picked edge may lie off its line. Left blank, a quarter of the distance.</source>
        <translation>Distance en plan entre une arête choisie et sa ligne, au plus. Vide : un quart de la distance.</translation>
    </message>
    <message>
        <source>Length of the edges carried on</source>
        <translation>Longueur des arêtes prolongées</translation>
    </message>
    <message>
        <source>Level</source>
        <translation>De niveau</translation>
    </message>
    <message>
        <source>Lines that pick edges</source>
        <translation>Lignes qui choisissent les arêtes</translation>
    </message>
    <message>
        <source>Number of faces</source>
        <translation>Nombre de faces</translation>
    </message>
    <message>
        <source>Number of new faces</source>
        <translation>Nombre de nouvelles faces</translation>
    </message>
    <message>
        <source>One triangle with heights a feature, with the fields: part (design, extension), face (face of the design from 1: the face itself, or the one whose edge the strip begins at).</source>
        <translation>Un triangle avec altitudes par entité, avec les champs : part (design = projet, extension = prolongement), face (facette du projet à partir de 1 : la facette elle-même, ou celle dont l&apos;arête porte la bande).</translation>
    </message>
    <message>
        <source>Only edges that run along one of these lines are carried on; edges that a line merely crosses are not. Left blank, all edges around the design are.</source>
        <translation>Seules les arêtes qui suivent une de ces lignes sont prolongées, pas celles qu&apos;une ligne ne fait que croiser. Vide : toutes les arêtes du pourtour.</translation>
    </message>
    <message>
        <source>Plan area of the new faces</source>
        <translation>Aire en plan des nouvelles faces</translation>
    </message>
    <message>
        <source>Slope of the strip</source>
        <translation>Pente de la bande</translation>
    </message>
    <message>
        <source>The surface as a mesh file, the given faces first, with the part (0 design, 1 extension) and the face of the design (from 1) of each face as datasets.</source>
        <translation>La surface en fichier de maillage, les facettes données d&apos;abord, avec la partie (0 projet, 1 prolongement) et la facette du projet (à partir de 1) de chaque facette comme jeux de données.</translation>
    </message>
    <message>
        <source>The surface: a mesh layer, or a polygon layer with heights (triangles or planar faces). Its CRS must be projected.</source>
        <translation>La surface : une couche de maillage, ou une couche de polygones avec altitudes (triangles ou faces planes). Son SCR doit être projeté.</translation>
    </message>
    <message>
        <source>Things that may be wrong</source>
        <translation>Points peut-être faux</translation>
    </message>
    <message>
        <source>What lies beyond the design has not been designed: check it with the designer before it is dug.</source>
        <translation>Ce qui est au-delà du projet n&apos;a pas été étudié : vérifiez-le avec le projeteur avant de creuser.</translation>
    </message>
    <message>
        <source>extend,extension,extrapolate,edge,border,beyond,outside,carry on,strip,slope,grade,level,TIN,mesh</source>
        <translation>prolonger,prolongement,extrapoler,arête,bord,au-delà,extérieur,continuer,bande,pente,niveau,TIN,maillage</translation>
    </message>
    <message>
        <source>{count} new faces beyond {length:.2f} {unit} of edges, {area:.2f} square {unit} in plan; strips beside each other are at most {apart} apart where they were blended.</source>
        <translation>{count} nouvelles faces au-delà de {length:.2f} {unit} d&apos;arêtes, {area:.2f} {unit} carrés en plan ; les bandes voisines s&apos;écartent d&apos;au plus {apart} là où elles ont été raccordées.</translation>
    </message>
    <message>
        <source>“{name}” is a raster: choose a mesh, or polygons with heights.</source>
        <translation>« {name} » est un raster : choisissez un maillage, ou des polygones avec altitudes.</translation>
    </message>
</context>
<context>
    <name>Gui</name>
    <message>
        <source>Choose…</source>
        <translation>Choisir…</translation>
    </message>
    <message>
        <source>[Not selected]</source>
        <translation>[Non sélectionné]</translation>
    </message>
    <message>
        <source>… {count} in all</source>
        <translation>… {count} en tout</translation>
    </message>
    <message>
        <source>in the unit of the job</source>
        <translation>dans l&apos;unité du travail</translation>
    </message>
    <message>
        <source>{count} lengths in the unit of the job</source>
        <translation>{count} longueurs dans l&apos;unité du travail</translation>
    </message>
</context>
<context>
    <name>Guidelines</name>
    <message>
        <source>... and {count} more: see the field “sentence”.</source>
        <translation>... et {count} de plus : voyez le champ « sentence ».</translation>
    </message>
    <message>
        <source>: side not settled</source>
        <translation> : côté non établi</translation>
    </message>
    <message>
        <source>A rule is tested at many places along each line. Where they do not agree (the side changes along the line, the reference crosses it, two references are equally near, the ground is flat, the surface is missing) no side is chosen: both candidates go to the flagged lines, with the reason.</source>
        <translation>Une règle est testée en de nombreux endroits de chaque ligne. S&apos;ils ne concordent pas (le côté change le long de la ligne, la référence la croise, deux références sont aussi proches, le terrain est plat, la surface manque), aucun côté n&apos;est choisi : les deux candidates vont aux lignes signalées, avec la raison.</translation>
    </message>
    <message>
        <source>Against the line</source>
        <translation>À contresens de la ligne</translation>
    </message>
    <message>
        <source>Along the line</source>
        <translation>Dans le sens de la ligne</translation>
    </message>
    <message>
        <source>Away from the reference</source>
        <translation>À l&apos;opposé de la référence</translation>
    </message>
    <message>
        <source>Bearing of travel (degrees)</source>
        <translation>Gisement de marche (degrés)</translation>
    </message>
    <message>
        <source>Bevel</source>
        <translation>Biseau</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Compass side</source>
        <translation>Côté cardinal</translation>
    </message>
    <message>
        <source>Corners</source>
        <translation>Angles</translation>
    </message>
    <message>
        <source>Depth</source>
        <translation>Profondeur</translation>
    </message>
    <message>
        <source>Depth below the heights</source>
        <translation>Profondeur sous les altitudes</translation>
    </message>
    <message>
        <source>Distance from the line in plan, always without a minus sign: the side is said below. Several at once: 1 ft, 2 ft or 1..5 step 1. Without a unit it is in the unit of the CRS.</source>
        <translation>Distance à la ligne en plan, toujours sans signe moins : le côté est dit plus bas. Plusieurs à la fois : 1 ft, 2 ft ou 1..5 step 1. Sans unité, elle est dans l&apos;unité du SCR.</translation>
    </message>
    <message>
        <source>Downhill on the surface</source>
        <translation>En aval sur la surface</translation>
    </message>
    <message>
        <source>Each guideline says the side of the line, the compass side, and the side that the driver sees in the direction of travel and on the way back. Read the sentence out, and compare it with the ground, before a machine follows the line.</source>
        <translation>Chaque ligne guide dit le côté de la ligne, le côté cardinal, et le côté que voit le conducteur dans le sens de marche et au retour. Lisez la phrase à voix haute, et comparez-la au terrain, avant qu&apos;une machine suive la ligne.</translation>
    </message>
    <message>
        <source>Facing a compass side</source>
        <translation>Face à une direction cardinale</translation>
    </message>
    <message>
        <source>Farthest that the tip of a mitre may lie from its corner, in offsets.</source>
        <translation>Distance maximale entre la pointe d&apos;un onglet et son angle, en décalages.</translation>
    </message>
    <message>
        <source>Feature {id}, field “{field}”: {why}</source>
        <translation>Entité {id}, champ « {field} » : {why}</translation>
    </message>
    <message>
        <source>Field with names</source>
        <translation>Champ des noms</translation>
    </message>
    <message>
        <source>Field with offsets</source>
        <translation>Champ des décalages</translation>
    </message>
    <message>
        <source>Field with sides</source>
        <translation>Champ des côtés</translation>
    </message>
    <message>
        <source>Flagged lines</source>
        <translation>Lignes signalées</translation>
    </message>
    <message>
        <source>For {count} guidelines the driver&apos;s side is not known at that bearing of travel: the line turns too far or runs square to it.</source>
        <translation>Pour {count} lignes guides, le côté du conducteur n&apos;est pas connu à ce gisement de marche : la ligne tourne trop ou lui est perpendiculaire.</translation>
    </message>
    <message>
        <source>Guidelines</source>
        <translation>Lignes guides</translation>
    </message>
    <message>
        <source>Guidelines run in the direction of their source. They never come nearer to it than the offset, at corners neither. Where a line bends too tightly, crosses itself or comes back too near to itself, the stretch without a guideline is listed with its stations.</source>
        <translation>Les lignes guides vont dans le sens de leur source. Elles n&apos;en sont jamais plus près que le décalage, pas même aux angles. Là où une ligne tourne trop serré, se recoupe ou revient trop près d&apos;elle-même, le tronçon sans ligne guide est listé avec ses abscisses.</translation>
    </message>
    <message>
        <source>Heights</source>
        <translation>Altitudes</translation>
    </message>
    <message>
        <source>Heights from</source>
        <translation>Altitudes d&apos;après</translation>
    </message>
    <message>
        <source>Heights from the surface need a surface: choose a layer for Surface.</source>
        <translation>Des altitudes d&apos;après la surface demandent une surface : choisissez une couche pour Surface.</translation>
    </message>
    <message>
        <source>How the outside of a corner is passed; no corner comes nearer to the line than the offset. Mitre: in one point, cut beyond the limit. Round: around the arc. Bevel: cut square at the offset.</source>
        <translation>Comment passer l&apos;extérieur d&apos;un angle ; aucun angle n&apos;est plus près de la ligne que le décalage. Onglet : en un point, coupé au-delà de la limite. Arrondi : par l&apos;arc. Biseau : coupé d&apos;équerre au décalage.</translation>
    </message>
    <message>
        <source>Inside the reference areas</source>
        <translation>Dans les zones de référence</translation>
    </message>
    <message>
        <source>Largest error of the distance (CRS unit)</source>
        <translation>Plus grande erreur de distance (unité du SCR)</translation>
    </message>
    <message>
        <source>Lays lines at an offset from lines, on a side that is said in words, proved along the line, and flagged where it cannot be known.</source>
        <translation>Pose des lignes à une distance d&apos;autres lignes, d&apos;un côté dit en mots, prouvé le long de la ligne, et signalé là où il ne peut pas être connu.</translation>
    </message>
    <message>
        <source>Least evidence (percent of the length)</source>
        <translation>Preuve minimale (pour cent de la longueur)</translation>
    </message>
    <message>
        <source>Left of the line</source>
        <translation>À gauche de la ligne</translation>
    </message>
    <message>
        <source>Length of all guidelines (CRS unit)</source>
        <translation>Longueur de toutes les lignes guides (unité du SCR)</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Lignes</translation>
    </message>
    <message>
        <source>Lines to lay guidelines beside, in a projected CRS. Each part of a multipart line is a line of its own.</source>
        <translation>Lignes le long desquelles poser des lignes guides, dans un SCR projeté. Chaque partie d&apos;une ligne multipartie est une ligne à elle seule.</translation>
    </message>
    <message>
        <source>Lowers the guideline: positive is below the line or the surface, a minus sign raises. Without a unit it is in the unit of heights.</source>
        <translation>Abaisse la ligne guide : positif est sous la ligne ou la surface, un signe moins relève. Sans unité, dans l&apos;unité des altitudes.</translation>
    </message>
    <message>
        <source>Machine drives</source>
        <translation>La machine roule</translation>
    </message>
    <message>
        <source>Mitre</source>
        <translation>Onglet</translation>
    </message>
    <message>
        <source>Mitre limit</source>
        <translation>Limite d&apos;onglet</translation>
    </message>
    <message>
        <source>None, plan only</source>
        <translation>Aucune, en plan seulement</translation>
    </message>
    <message>
        <source>Number of guidelines</source>
        <translation>Nombre de lignes guides</translation>
    </message>
    <message>
        <source>Number of lines whose side is not settled, per offset</source>
        <translation>Nombre de lignes dont le côté n&apos;est pas établi, par décalage</translation>
    </message>
    <message>
        <source>Number of stretches without a guideline</source>
        <translation>Nombre de tronçons sans ligne guide</translation>
    </message>
    <message>
        <source>Offsets</source>
        <translation>Décalages</translation>
    </message>
    <message>
        <source>Offsets of each line, as a number or a text; where it is empty the offsets above hold.</source>
        <translation>Décalages de chaque ligne, en nombre ou en texte ; s&apos;il est vide, les décalages ci-dessus valent.</translation>
    </message>
    <message>
        <source>Offsets: write at least one, such as 1 ft, or choose a field with offsets.</source>
        <translation>Décalages : écrivez-en au moins un, comme 1 ft, ou choisissez un champ de décalages.</translation>
    </message>
    <message>
        <source>Outside the reference areas</source>
        <translation>Hors des zones de référence</translation>
    </message>
    <message>
        <source>Page with the side of every guideline in words, for both driving directions, and sketches.</source>
        <translation>Page avec le côté de chaque ligne guide en mots, pour les deux sens de marche, et des croquis.</translation>
    </message>
    <message>
        <source>Plan unit</source>
        <translation>Unité en plan</translation>
    </message>
    <message>
        <source>Points, lines or polygons that the sides toward, away, inside and outside look at. In another CRS it is moved to that of the lines.</source>
        <translation>Points, lignes ou polygones que regardent les côtés vers, à l&apos;opposé, dedans et dehors. Dans un autre SCR, ils sont portés dans celui des lignes.</translation>
    </message>
    <message>
        <source>Reference</source>
        <translation>Référence</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Right and left are seen looking from the first to the last vertex of a line, so they change when the line is drawn the other way. The other rules (toward, inside, uphill, compass ...) look at the ground, and give the same side however the line is drawn.</source>
        <translation>La droite et la gauche se voient en regardant du premier au dernier sommet d&apos;une ligne, elles changent donc quand la ligne est dessinée dans l&apos;autre sens. Les autres règles (vers, dedans, amont, direction cardinale ...) regardent le terrain, et donnent le même côté quel que soit le dessin de la ligne.</translation>
    </message>
    <message>
        <source>Right of the line</source>
        <translation>À droite de la ligne</translation>
    </message>
    <message>
        <source>Round</source>
        <translation>Arrondi</translation>
    </message>
    <message>
        <source>Share of a line&apos;s length that must support the side. Below it, or where more than 2 % of the length says the other side, the line is flagged.</source>
        <translation>Part de la longueur d&apos;une ligne qui doit appuyer le côté. En dessous, ou si plus de 2 % de la longueur dit l&apos;autre côté, la ligne est signalée.</translation>
    </message>
    <message>
        <source>Side</source>
        <translation>Côté</translation>
    </message>
    <message>
        <source>Side of each line, by the words of the parameter above (right, left, toward ...); where it is empty the side above holds.</source>
        <translation>Côté de chaque ligne, par les mots du paramètre ci-dessus (right, left, toward ...) ; s&apos;il est vide, le côté ci-dessus vaut.</translation>
    </message>
    <message>
        <source>Surface</source>
        <translation>Surface</translation>
    </message>
    <message>
        <source>Surface that the sides uphill, downhill, steeper and flatter look at, as far away as the offset, and that heights may be taken from. It must be in the CRS of the lines.</source>
        <translation>Surface que regardent les côtés amont, aval, plus raide et plus plat, à la distance du décalage, et d&apos;où peuvent venir les altitudes. Elle doit être dans le SCR des lignes.</translation>
    </message>
    <message>
        <source>The depth has no effect on guidelines without heights.</source>
        <translation>La profondeur est sans effet sur des lignes guides sans altitudes.</translation>
    </message>
    <message>
        <source>The line</source>
        <translation>La ligne</translation>
    </message>
    <message>
        <source>The line has vertices without a height, so this guideline has none: give them their Z, or take heights from a surface or none.</source>
        <translation>La ligne a des sommets sans altitude, cette ligne guide n&apos;en a donc pas : donnez-leur leur Z, ou prenez les altitudes d&apos;une surface ou aucune.</translation>
    </message>
    <message>
        <source>The line turns too far or runs square to the bearing of travel, so the driver&apos;s side is not given for that bearing: the sentence says it for the line&apos;s own direction.</source>
        <translation>La ligne tourne trop ou est perpendiculaire au gisement de marche, le côté du conducteur n&apos;est donc pas donné pour ce gisement : la phrase le dit pour le sens propre de la ligne.</translation>
    </message>
    <message>
        <source>The lines have no heights, so the guidelines are plan lines: take heights from a surface if a machine needs them.</source>
        <translation>Les lignes n&apos;ont pas d&apos;altitudes, les lignes guides sont donc en plan : prenez les altitudes d&apos;une surface si une machine en a besoin.</translation>
    </message>
    <message>
        <source>The side “{side}” needs a reference: choose a layer for Reference.</source>
        <translation>Le côté « {side} » demande une référence : choisissez une couche pour Référence.</translation>
    </message>
    <message>
        <source>The side “{side}” needs a surface: choose a layer for Surface.</source>
        <translation>Le côté « {side} » demande une surface : choisissez une couche pour Surface.</translation>
    </message>
    <message>
        <source>The surface</source>
        <translation>La surface</translation>
    </message>
    <message>
        <source>The wind that the side faces, for the side compass: north means the side of the line that lies towards grid north.</source>
        <translation>La direction à laquelle le côté fait face, pour le côté cardinal : nord veut dire le côté de la ligne tourné vers le nord du quadrillage.</translation>
    </message>
    <message>
        <source>There is no surface under this stretch of the guideline: extend the surface, or take no heights.</source>
        <translation>Il n&apos;y a pas de surface sous ce tronçon de la ligne guide : prolongez la surface, ou ne prenez pas d&apos;altitudes.</translation>
    </message>
    <message>
        <source>Toward the reference</source>
        <translation>Vers la référence</translation>
    </message>
    <message>
        <source>Uphill on the surface</source>
        <translation>En amont sur la surface</translation>
    </message>
    <message>
        <source>What did not become a guideline, in plan, with flag and why: both candidates of lines whose side is not settled, and stretches without a guideline.</source>
        <translation>Ce qui n&apos;est pas devenu une ligne guide, en plan, avec flag et why : les deux candidates des lignes dont le côté n&apos;est pas établi, et les tronçons sans ligne guide.</translation>
    </message>
    <message>
        <source>What people call each line, for the sentences. Left blank, a field called “name” is used if there is one, else the feature id.</source>
        <translation>Le nom courant de chaque ligne, pour les phrases. Laissé vide, un champ appelé « name » sert s&apos;il existe, sinon l&apos;identifiant de l&apos;entité.</translation>
    </message>
    <message>
        <source>Where the surface is flatter</source>
        <translation>Où la surface est plus plate</translation>
    </message>
    <message>
        <source>Where the surface is steeper</source>
        <translation>Où la surface est plus raide</translation>
    </message>
    <message>
        <source>Which side of the line. Right and left look from the first to the last vertex of the line; in signed offsets + is right and - is left. The other rules do not depend on how the line is drawn.</source>
        <translation>De quel côté de la ligne. La droite et la gauche regardent du premier au dernier sommet de la ligne ; dans les décalages signés, + est à droite et - à gauche. Les autres règles ne dépendent pas du dessin de la ligne.</translation>
    </message>
    <message>
        <source>an offset of 0 has no side, write one greater than 0.</source>
        <translation>un décalage de 0 n&apos;a pas de côté, écrivez-en un supérieur à 0.</translation>
    </message>
    <message>
        <source>left</source>
        <translation>gauche</translation>
    </message>
    <message>
        <source>none, plan only</source>
        <translation>aucune, en plan seulement</translation>
    </message>
    <message>
        <source>not known</source>
        <translation>inconnu</translation>
    </message>
    <message>
        <source>of the lines</source>
        <translation>des lignes</translation>
    </message>
    <message>
        <source>of the surface</source>
        <translation>de la surface</translation>
    </message>
    <message>
        <source>offset,parallel,line,side,left,right,curb,kerb,edge,guide line,uphill,toward,setback,stake-out</source>
        <translation>décalage,parallèle,ligne,côté,gauche,droite,bordure,bord,ligne guide,amont,vers,retrait,implantation</translation>
    </message>
    <message>
        <source>offsets are written without a minus sign, since the side is said by the parameter “Side” (right, left, toward ...).</source>
        <translation>les décalages s&apos;écrivent sans signe moins, puisque le côté est dit par le paramètre « Côté » (right, left, toward ...).</translation>
    </message>
    <message>
        <source>right</source>
        <translation>droite</translation>
    </message>
    <message>
        <source>stations {span}; look at {x:.2f}, {y:.2f}</source>
        <translation>abscisses {span} ; regardez en {x:.2f}, {y:.2f}</translation>
    </message>
    <message>
        <source>there is no offset, write one such as 1 ft.</source>
        <translation>il n&apos;y a pas de décalage, écrivez-en un comme 1 ft.</translation>
    </message>
    <message>
        <source>{count} guidelines, {length} in all. Each was measured against its line: the side holds, and away from corners the distance is right within {error:.6f} {symbol}.</source>
        <translation>{count} lignes guides, {length} en tout. Chacune a été mesurée par rapport à sa ligne : le côté tient, et hors des angles la distance est juste à {error:.6f} {symbol} près.</translation>
    </message>
    <message>
        <source>{count} sides are not settled, and no guideline was laid there: decide them before work starts.</source>
        <translation>{count} côtés ne sont pas établis, et aucune ligne guide n&apos;y a été posée : décidez-les avant le début des travaux.</translation>
    </message>
    <message>
        <source>{count} stretches have no guideline beside them, or one that cuts a corner: look at them before work starts.</source>
        <translation>{count} tronçons n&apos;ont pas de ligne guide, ou une qui coupe un angle : regardez-les avant le début des travaux.</translation>
    </message>
    <message>
        <source>“{word}” is not one of: {words}.</source>
        <translation>« {word} » ne figure pas parmi : {words}.</translation>
    </message>
    <message>
        <source>At a bearing</source>
        <translation>Selon un gisement</translation>
    </message>
    <message>
        <source>Clockwise from grid north: 90 is east. Used when the machine drives at a bearing, or the nearer way to it.</source>
        <translation>Dans le sens horaire depuis le nord du quadrillage : 90 est l&apos;est. Sert quand la machine roule selon un gisement, ou dans le sens qui en est le plus proche.</translation>
    </message>
    <message>
        <source>Expression for sides</source>
        <translation>Expression des côtés</translation>
    </message>
    <message>
        <source>Expression for sides, feature {id}: {why}</source>
        <translation>Expression des côtés, entité {id} : {why}</translation>
    </message>
    <message>
        <source>Flag the line</source>
        <translation>Signaler la ligne</translation>
    </message>
    <message>
        <source>Flag: both candidates go to the flagged lines, and nothing is laid. Split: the line is split where the side changes, each part gets its own proved side, and says so; stretches that do not tell a side are flagged.</source>
        <translation>Signaler : les deux candidates vont aux lignes signalées, et rien n&apos;est posé. Couper : la ligne est coupée là où le côté change, chaque partie reçoit son propre côté prouvé, et le dit ; les tronçons qui n&apos;indiquent pas de côté sont signalés.</translation>
    </message>
    <message>
        <source>Gives the word of the side for each line, such as if(&quot;kind&quot; = &apos;curb&apos;, &apos;away&apos;, &apos;toward&apos;); it goes before the field. Where it gives nothing, the field or the side above holds.</source>
        <translation>Donne le mot du côté pour chaque ligne, comme if(&quot;kind&quot; = &apos;curb&apos;, &apos;away&apos;, &apos;toward&apos;) ; elle passe avant le champ. Là où elle ne donne rien, le champ ou le côté ci-dessus vaut.</translation>
    </message>
    <message>
        <source>Split the line there</source>
        <translation>Y couper la ligne</translation>
    </message>
    <message>
        <source>The nearer of its two ways to a bearing</source>
        <translation>Le plus proche d&apos;un gisement de ses deux sens</translation>
    </message>
    <message>
        <source>The side changes along the line, which was split there: this is the part from station {start} to {stop}.</source>
        <translation>Le côté change le long de la ligne, qui y a été coupée : ceci est la partie de l&apos;abscisse {start} à {stop}.</translation>
    </message>
    <message>
        <source>Where the side changes along a line</source>
        <translation>Là où le côté change le long d&apos;une ligne</translation>
    </message>
    <message>
        <source>Which way the machine drives. It does not move a guideline: it says on which side the driver sees it. At a bearing: lines that run more than 1 1/2 winds (67.5 degrees) off it either way are flagged. The nearer way: of its two ways each line takes the one nearer to the bearing, and only closed lines and those square to it are flagged.</source>
        <translation>Dans quel sens roule la machine. Cela ne déplace pas une ligne guide : cela dit de quel côté le conducteur la voit. Selon un gisement : les lignes qui s&apos;en écartent de plus de 67,5 degrés dans les deux sens sont signalées. Le sens le plus proche : de ses deux sens, chaque ligne prend le plus proche du gisement, et seules les lignes fermées et celles d&apos;équerre sont signalées.</translation>
    </message>
    <message>
        <source>{share}, least at {station}</source>
        <translation>{share}, le moins à {station}</translation>
    </message>
    <message>
        <source> (between: {more})</source>
        <translation> (entre les deux : {more})</translation>
    </message>
    <message>
        <source>An offset that changes along the line, instead of the offsets above: 1 ft &gt; 3 ft from the start of the line to its end, or 0+00: 1 ft; 1+00: 3 ft at stations, linear between them and constant beyond. It stays on one side, so no offset of it is 0.</source>
        <translation>Un décalage qui change le long de la ligne, à la place des décalages ci-dessus : 1 ft &gt; 3 ft du début à la fin de la ligne, ou 0+00: 1 ft; 1+00: 3 ft à des abscisses, linéaire entre elles et constant au-delà. Il reste d&apos;un seul côté, donc aucun de ses décalages n&apos;est 0.</translation>
    </message>
    <message>
        <source>Cross grade</source>
        <translation>Dévers</translation>
    </message>
    <message>
        <source>Cross grade away from the line</source>
        <translation>Dévers en s&apos;éloignant de la ligne</translation>
    </message>
    <message>
        <source>Each piece a feature</source>
        <translation>Chaque morceau une entité</translation>
    </message>
    <message>
        <source>Feature {id}, taper: {why}</source>
        <translation>Entité {id}, décalage progressif : {why}</translation>
    </message>
    <message>
        <source>Field with tapers</source>
        <translation>Champ des décalages progressifs</translation>
    </message>
    <message>
        <source>For heights from the line: + rises and - falls going away from the line, on whichever side the guideline lies. -2 % or -1:50 falls 2 % away from the line. The depth comes on top.</source>
        <translation>Pour des altitudes de la ligne : + monte et - descend en s&apos;éloignant de la ligne, quel que soit le côté de la ligne guide. -2 % ou -1:50 descend de 2 % en s&apos;éloignant. La profondeur s&apos;y ajoute.</translation>
    </message>
    <message>
        <source>Lines whose M is the station on the source (round a closed line it runs on past its end), with the fields: source_id, part, name; side_line, signed_offset (+ right, - left; of a taper at its start), signed_offset_end (of a taper), offset (in two styles), label, rule, compass_side; travel and side_driver, travel_back and side_driver_back, travel_bearing; evidence (percent), weakest_station, weakest_x, weakest_y (where the least speaks for the side); length; station_from, station_to on the line (a piece that passes the start of a closed line ends at a smaller station than it begins); z_from; flag, why; sentence.</source>
        <translation>Lignes dont le M est l&apos;abscisse sur la source (autour d&apos;une ligne fermée il continue au-delà de sa fin), avec les champs : source_id, part, name ; side_line, signed_offset (+ à droite, - à gauche ; d&apos;un décalage progressif à son début), signed_offset_end (d&apos;un décalage progressif), offset (sous deux formes), label, rule, compass_side ; travel et side_driver, travel_back et side_driver_back, travel_bearing ; evidence (pour cent), weakest_station, weakest_x, weakest_y (où le moins parle pour le côté) ; length ; station_from, station_to sur la ligne (un morceau qui passe le début d&apos;une ligne fermée finit à une abscisse plus petite qu&apos;il ne commence) ; z_from ; flag, why ; sentence.</translation>
    </message>
    <message>
        <source>Pieces</source>
        <translation>Morceaux</translation>
    </message>
    <message>
        <source>Taper</source>
        <translation>Décalage progressif</translation>
    </message>
    <message>
        <source>Taper of each line, as text; where it is empty the one above holds, or else the offsets.</source>
        <translation>Décalage progressif de chaque ligne, en texte ; là où il est vide, celui ci-dessus vaut, ou sinon les décalages.</translation>
    </message>
    <message>
        <source>The cross grade has no effect: it counts from the heights of the line, which are not used.</source>
        <translation>Le dévers est sans effet : il compte depuis les altitudes de la ligne, qui ne servent pas.</translation>
    </message>
    <message>
        <source>The pieces of a line and offset in one feature</source>
        <translation>Les morceaux d&apos;une ligne et d&apos;un décalage en une entité</translation>
    </message>
    <message>
        <source>Where a line bends too tightly its guideline comes in pieces: one feature each, or one multipart feature for each line, offset and side.</source>
        <translation>Là où une ligne tourne trop serré, sa ligne guide vient en morceaux : une entité chacun, ou une entité multiparties par ligne, décalage et côté.</translation>
    </message>
    <message>
        <source>a closed line has to end with the offset that it starts with.</source>
        <translation>une ligne fermée doit finir avec le décalage par lequel elle commence.</translation>
    </message>
    <message>
        <source>falls</source>
        <translation>descend de</translation>
    </message>
    <message>
        <source>none of the stations of the taper is on the line.</source>
        <translation>aucune des abscisses du décalage progressif n&apos;est sur la ligne.</translation>
    </message>
    <message>
        <source>rises</source>
        <translation>monte de</translation>
    </message>
    <message>
        <source>the offsets of a taper are above 0 all along, since at 0 the guideline would change sides.</source>
        <translation>les décalages progressifs sont partout au-dessus de 0, car à 0 la ligne guide changerait de côté.</translation>
    </message>
    <message>
        <source>the stations of a taper have to rise.</source>
        <translation>les abscisses d&apos;un décalage progressif doivent croître.</translation>
    </message>
    <message>
        <source>{start} to {stop}</source>
        <translation>{start} à {stop}</translation>
    </message>
    <message>
        <source>{way} {percent:g} % away from the line</source>
        <translation>{way} {percent:g} % en s&apos;éloignant de la ligne</translation>
    </message>
    <message>
        <source>“{text}” is no taper: write it like 1 ft &gt; 3 ft, or like 0+00: 1 ft; 1+00: 3 ft.</source>
        <translation>« {text} » n&apos;est pas un décalage progressif : écrivez-le comme 1 ft &gt; 3 ft, ou comme 0+00: 1 ft; 1+00: 3 ft.</translation>
    </message>
    <message>
        <source>As chords</source>
        <translation>En cordes</translation>
    </message>
    <message>
        <source>Kept as arcs</source>
        <translation>Gardés en arcs</translation>
    </message>
    <message>
        <source>True arcs</source>
        <translation>Vrais arcs</translation>
    </message>
    <message>
        <source>Beside a true arc of a line (circular strings, compound curves) lies a true arc about the same centre, and the result holds curves. As chords: dense vertices within 0.1 mm of it. Heights from the surface and tapers always give chords. Stations run along the arcs themselves.</source>
        <translation>Le long d&apos;un arc vrai d&apos;une ligne (arcs de cercle, courbes composées) court un arc vrai de même centre, et le résultat contient des courbes. En cordes : des sommets denses à 0,1 mm près. Les hauteurs de la surface et les décalages progressifs donnent toujours des cordes. Les abscisses suivent les arcs eux-mêmes.</translation>
    </message>
    <message>
        <source>Number of stretches beside arcs that stay chords</source>
        <translation>Nombre de tronçons le long d&apos;arcs qui restent des cordes</translation>
    </message>
    <message>
        <source>{count} stretches beside arcs stay chords, within {error} of the arc: there is no room for an arc, or its distance could not be proved.</source>
        <translation>{count} tronçons le long d&apos;arcs restent des cordes, à {error} près de l&apos;arc : la place manque pour un arc, ou sa distance n&apos;a pas pu être prouvée.</translation>
    </message>
    <message>
        <source>A table (CSV, sheet, database) with one row for each place and the columns: station; offset, above 0, with its unit or in that of the CRS; and if wanted line, the name of the line that the row is for (rows without it are for all other lines). The stations of one line rise from row to row. A taper in the field of a line goes before.</source>
        <translation>Une table (CSV, feuille, base de données) avec une ligne par endroit et les colonnes : station (abscisse) ; offset (décalage), supérieur à 0, avec son unité ou dans celle du SCR ; et si voulu line, le nom de la ligne que cela concerne (sans lui, toutes les autres lignes). Les abscisses d&apos;une même ligne croissent. Un décalage progressif dans le champ d&apos;une ligne passe avant.</translation>
    </message>
    <message>
        <source>Row</source>
        <translation>Ligne</translation>
    </message>
    <message>
        <source>Table of tapers</source>
        <translation>Table des décalages progressifs</translation>
    </message>
    <message>
        <source>Table of tapers, line “{name}”: {why}</source>
        <translation>Table des décalages progressifs, ligne « {name} » : {why}</translation>
    </message>
    <message>
        <source>Table of tapers: no line is called “{name}”.</source>
        <translation>Table des décalages progressifs : aucune ligne ne s&apos;appelle « {name} ».</translation>
    </message>
    <message>
        <source>“{table}”, the table of tapers has no rows: fill it in, or leave it out.</source>
        <translation>« {table} », la table des décalages progressifs n&apos;a pas de lignes : remplissez-la ou laissez-la de côté.</translation>
    </message>
    <message>
        <source>Table of tapers, rows without a line: {why}</source>
        <translation>Table des décalages progressifs, rangs sans ligne : {why}</translation>
    </message>
    <message>
        <source>{label}: the side “{side}” needs polygons, and there are none in it. Choose a layer with areas, or another side.</source>
        <translation>{label} : le côté « {side} » demande des polygones, et il n&apos;y en a pas. Choisissez une couche de surfaces, ou un autre côté.</translation>
    </message>
    <message>
        <source>From the line: at each station the height of the line there, level round the tip of an outer corner; at an inner corner heights run to the mean of both sides along no more than the offset. From the surface: its height under the guideline, with a vertex wherever it crosses an edge of the surface (or at every pixel). Lines without heights give plan lines; a missing height is never written as 0.</source>
        <translation>De la ligne : à chaque abscisse, l&apos;altitude de la ligne à cet endroit, constante autour de la pointe d&apos;un angle extérieur ; à un angle intérieur, les altitudes rejoignent la moyenne des deux côtés sur une longueur qui n&apos;excède pas le décalage. De la surface : son altitude sous la ligne guide, avec un sommet partout où elle croise une arête de la surface (ou à chaque pixel). Des lignes sans altitudes donnent des lignes en plan ; une altitude absente n&apos;est jamais écrite 0.</translation>
    </message>
    <message>
        <source>{count} stretches have no heights, and no guideline was laid there.</source>
        <translation>{count} tronçons n&apos;ont pas d&apos;altitudes, et aucune ligne guide n&apos;y a été posée.</translation>
    </message>
</context>
<context>
    <name>Layers</name>
    <message>
        <source>A geometry collection mixes points, lines and polygons: split it into one kind per feature.</source>
        <translation>Une collection de géométries mélange points, lignes et polygones : divisez-la en un seul genre par entité.</translation>
    </message>
    <message>
        <source>Geometry kind {code} cannot be read: convert it to a simple kind.</source>
        <translation>Le genre de géométrie {code} ne peut pas être lu : convertissez-le en un genre simple.</translation>
    </message>
    <message>
        <source>The design has no coordinate reference system: set its projected CRS in the layer properties.</source>
        <translation>Le projet n&apos;a pas de système de coordonnées de référence : définissez son SCR projeté dans les propriétés de la couche.</translation>
    </message>
    <message>
        <source>The vertical unit “{word}” is unknown: use one of {words}.</source>
        <translation>L&apos;unité verticale « {word} » est inconnue : utilisez l&apos;une de {words}.</translation>
    </message>
    <message>
        <source>no CRS</source>
        <translation>sans SCR</translation>
    </message>
    <message>
        <source>the file takes no features</source>
        <translation>le fichier n&apos;accepte pas d&apos;entités</translation>
    </message>
    <message>
        <source>“{layer}” has no field “{field}”: its fields are {fields}.</source>
        <translation>« {layer} » n&apos;a pas de champ « {field} » : ses champs sont {fields}.</translation>
    </message>
    <message>
        <source>“{name}” cannot be written: {why}.</source>
        <translation>« {name} » ne peut pas être écrit : {why}.</translation>
    </message>
    <message>
        <source>“{name}” is in {other} and the design in {crs}: bring both into one CRS first, since a surface is never reprojected here.</source>
        <translation>« {name} » est en {other} et le projet en {crs} : mettez d&apos;abord les deux dans le même SCR, car une surface n&apos;est jamais reprojetée ici.</translation>
    </message>
    <message>
        <source>All heights of “{name}” are 0: they may have been lost when the layer was made.</source>
        <translation>Toutes les altitudes de « {name} » valent 0 : elles ont pu se perdre à la création de la couche.</translation>
    </message>
    <message>
        <source>Corners of neighbouring faces were joined; the largest move was {move}.</source>
        <translation>Des sommets de facettes voisines ont été joints ; le plus grand déplacement est de {move}.</translation>
    </message>
    <message>
        <source>The mesh “{name}” has no faces: choose a triangulated surface.</source>
        <translation>Le maillage « {name} » n&apos;a pas de facettes : choisissez une surface triangulée.</translation>
    </message>
    <message>
        <source>The mesh “{name}” is being edited: save or discard the edits first.</source>
        <translation>Le maillage « {name} » est en cours d&apos;édition : enregistrez ou annulez d&apos;abord les modifications.</translation>
    </message>
    <message>
        <source>The raster “{name}” cannot be opened: {why}.</source>
        <translation>Le raster « {name} » ne peut pas être ouvert : {why}.</translation>
    </message>
    <message>
        <source>The raster “{name}” comes from a service ({kind}): save it as a GeoTIFF first.</source>
        <translation>Le raster « {name} » vient d&apos;un service ({kind}) : enregistrez-le d&apos;abord en GeoTIFF.</translation>
    </message>
    <message>
        <source>The raster “{name}” has no band {band}: it has {count}.</source>
        <translation>Le raster « {name} » n&apos;a pas de bande {band} : il en a {count}.</translation>
    </message>
    <message>
        <source>The raster “{name}” holds complex numbers, not heights.</source>
        <translation>Le raster « {name} » contient des nombres complexes, pas des altitudes.</translation>
    </message>
    <message>
        <source>a face points at a vertex that is not there</source>
        <translation>une facette renvoie à un sommet absent</translation>
    </message>
    <message>
        <source>a mesh layer, a polygon layer with heights, or a raster layer</source>
        <translation>une couche de maillage, une couche de polygones avec altitudes ou une couche raster</translation>
    </message>
    <message>
        <source>a mesh layer, or a polygon layer with heights (triangles or planar faces)</source>
        <translation>une couche de maillage, ou une couche de polygones avec altitudes (triangles ou facettes planes)</translation>
    </message>
    <message>
        <source>a raster layer</source>
        <translation>une couche raster</translation>
    </message>
    <message>
        <source>has no heights (Z) in its polygons</source>
        <translation>n&apos;a pas d&apos;altitudes (Z) dans ses polygones</translation>
    </message>
    <message>
        <source>holds no faces</source>
        <translation>ne contient pas de facettes</translation>
    </message>
    <message>
        <source>is a raster</source>
        <translation>est un raster</translation>
    </message>
    <message>
        <source>is no surface</source>
        <translation>n&apos;est pas une surface</translation>
    </message>
    <message>
        <source>is not a polygon layer</source>
        <translation>n&apos;est pas une couche de polygones</translation>
    </message>
    <message>
        <source>is not a raster</source>
        <translation>n&apos;est pas un raster</translation>
    </message>
    <message>
        <source>it has no PLY header</source>
        <translation>il n&apos;a pas d&apos;en-tête PLY</translation>
    </message>
    <message>
        <source>it holds something else than vertices and triangles</source>
        <translation>il contient autre chose que des sommets et des triangles</translation>
    </message>
    <message>
        <source>it is cut short, or its faces are not triangles</source>
        <translation>il est tronqué, ou ses facettes ne sont pas des triangles</translation>
    </message>
    <message>
        <source>it is not a binary PLY file</source>
        <translation>ce n&apos;est pas un fichier PLY binaire</translation>
    </message>
    <message>
        <source>it is not a line.</source>
        <translation>ce n&apos;est pas une ligne.</translation>
    </message>
    <message>
        <source>it is not a point.</source>
        <translation>ce n&apos;est pas un point.</translation>
    </message>
    <message>
        <source>it is not a polygon.</source>
        <translation>ce n&apos;est pas un polygone.</translation>
    </message>
    <message>
        <source>its faces are not triangles with x, y, z</source>
        <translation>ses facettes ne sont pas des triangles avec x, y, z</translation>
    </message>
    <message>
        <source>one of its rings has fewer than three corners.</source>
        <translation>un de ses anneaux a moins de trois sommets.</translation>
    </message>
    <message>
        <source>the line has no length.</source>
        <translation>la ligne n&apos;a pas de longueur.</translation>
    </message>
    <message>
        <source>{crs} is not a projected CRS: reproject the data to one in metres or feet.</source>
        <translation>{crs} n&apos;est pas un SCR projeté : reprojetez les données dans un SCR en mètres ou en pieds.</translation>
    </message>
    <message>
        <source>“{name}” is in {own} and was moved to {crs} in plan; its heights were left as they are.</source>
        <translation>« {name} » est en {own} et a été porté en plan dans {crs} ; ses altitudes sont restées telles quelles.</translation>
    </message>
    <message>
        <source>“{name}” {what}, and this tool needs {wanted}.</source>
        <translation>« {name} » {what}, et cet outil demande {wanted}.</translation>
    </message>
    <message>
        <source>“{name}”, feature {id}: a corner has no height; give it its Z or remove the face.</source>
        <translation>« {name} », entité {id} : un sommet n&apos;a pas d&apos;altitude ; donnez-lui son Z ou supprimez la facette.</translation>
    </message>
    <message>
        <source>“{name}”, feature {id}: a face has fewer than three corners; remove it.</source>
        <translation>« {name} », entité {id} : une facette a moins de trois sommets ; supprimez-la.</translation>
    </message>
    <message>
        <source>“{name}”, feature {id}: {why}</source>
        <translation>« {name} », entité {id} : {why}</translation>
    </message>
    <message>
        <source>“{name}”: {count} features have no geometry and were left out: {ids}.</source>
        <translation>« {name} » : {count} entités n&apos;ont pas de géométrie et ont été omises : {ids}.</translation>
    </message>
    <message>
        <source>“{path}” cannot be read as a TIN: {why}.</source>
        <translation>« {path} » ne peut pas être lu comme un TIN : {why}.</translation>
    </message>
    <message>
        <source>“{path}” cannot be written: {why}.</source>
        <translation>« {path} » ne peut pas être écrit : {why}.</translation>
    </message>
    <message>
        <source>The file declares a length of {declared}, and the elements have {length}.</source>
        <translation>Le fichier déclare une longueur de {declared}, et les éléments ont {length}.</translation>
    </message>
    <message>
        <source>The file gives no elevation for some of its points.</source>
        <translation>Le fichier ne donne pas d&apos;altitude pour certains de ses points.</translation>
    </message>
    <message>
        <source>The file leaves gaps between its elements.</source>
        <translation>Le fichier laisse des trous entre ses éléments.</translation>
    </message>
    <message>
        <source>{back} back = {ahead} ahead</source>
        <translation>{back} arrière = {ahead} avant</translation>
    </message>
    <message>
        <source>{file} is in {unit} and {crs} in {other}, which would move its points by up to {move} {symbol}: find out which is true, then choose to convert or to keep the numbers.</source>
        <translation>{file} est en {unit} et {crs} en {other}, ce qui déplacerait ses points de {move} {symbol} au plus : cherchez ce qui est vrai, puis choisissez de convertir ou de garder les nombres.</translation>
    </message>
    <message>
        <source>{file} is in {unit} by its own words; its numbers are taken as {other} as you asked for.</source>
        <translation>{file} se dit en {unit} ; ses nombres sont pris en {other}, comme demandé.</translation>
    </message>
    <message>
        <source>{file} is in {unit}; plan coordinates are multiplied by {plan} and heights by {vertical} to be in the units of {crs}.</source>
        <translation>{file} est en {unit} ; les coordonnées planes sont multipliées par {plan} et les altitudes par {vertical} pour être dans les unités de {crs}.</translation>
    </message>
    <message>
        <source>{file} states no EPSG code that is known (its coordinate system is called “{name}”, code “{code}”): choose the CRS.</source>
        <translation>{file} ne donne pas de code EPSG connu (son système de coordonnées s&apos;appelle « {name} », code « {code} ») : choisissez le SCR.</translation>
    </message>
    <message>
        <source>{file} states {stated}, and is read as {crs} as you asked for.</source>
        <translation>{file} indique {stated}, et est lu en {crs}, comme demandé.</translation>
    </message>
    <message>
        <source>{name} ({size})</source>
        <translation>{name} ({size})</translation>
    </message>
    <message>
        <source>its outline is not valid ({why}): repair it with “Fix geometries”.</source>
        <translation>son contour n&apos;est pas valide ({why}) : réparez-le avec « Réparer les géométries ».</translation>
    </message>
    <message>
        <source>The raster “{name}” is rotated: warp it to an unrotated grid first (gdalwarp).</source>
        <translation>Le raster « {name} » est tourné : redressez-le d&apos;abord sur une grille non tournée (gdalwarp).</translation>
    </message>
    <message>
        <source>The raster “{name}” marks missing pixels by a mask: give it a nodata value first (gdal_translate -mask none -a_nodata).</source>
        <translation>Le raster « {name} » marque les pixels absents par un masque : donnez-lui d&apos;abord une valeur sans données (gdal_translate -mask none -a_nodata).</translation>
    </message>
    <message>
        <source>The raster “{name}” stores its heights scaled: unscale it first (gdal_translate -unscale).</source>
        <translation>Le raster « {name} » stocke ses altitudes à l&apos;échelle : rétablissez-les d&apos;abord (gdal_translate -unscale).</translation>
    </message>
    <message>
        <source>“{path}” could not be made: {why}.</source>
        <translation>« {path} » n&apos;a pas pu être créé : {why}.</translation>
    </message>
    <message>
        <source>The creation options {options} do not fit: {why}.</source>
        <translation>Les options de création {options} ne conviennent pas : {why}.</translation>
    </message>
    <message>
        <source>Feature</source>
        <translation>L&apos;entité</translation>
    </message>
    <message>
        <source>{thing} {id} has no value in the field “{field}”: fill it in.</source>
        <translation>{thing} {id} n&apos;a pas de valeur dans le champ « {field} » : remplissez-le.</translation>
    </message>
    <message>
        <source>{thing} {id}, field “{field}”: {why}</source>
        <translation>{thing} {id}, champ « {field} » : {why}</translation>
    </message>
    <message>
        <source>“{value}” is not a number.</source>
        <translation>« {value} » n&apos;est pas un nombre.</translation>
    </message>
    <message>
        <source>“{one}” and “{other}” have no ground in common: check that both belong to this site.</source>
        <translation>« {one} » et « {other} » n&apos;ont aucun terrain en commun : vérifiez que les deux appartiennent à ce site.</translation>
    </message>
    <message>
        <source>“{name}” is in {other} and the lines in {crs}: reproject one of the two first.</source>
        <translation>« {name} » est en {other} et les lignes en {crs} : reprojetez d&apos;abord l&apos;une des deux.</translation>
    </message>
</context>
<context>
    <name>Measure</name>
    <message>
        <source>Field with names of the zones</source>
        <translation>Champ du nom des zones</translation>
    </message>
    <message>
        <source>Field with priorities of the zones</source>
        <translation>Champ de priorité des zones</translation>
    </message>
    <message>
        <source>Where zones overlap the lower number wins, so that no ground counts twice. Without it, zones that overlap are refused.</source>
        <translation>Là où des zones se recouvrent, le plus petit nombre l&apos;emporte, pour que rien ne compte deux fois. Sans lui, les zones qui se recouvrent sont refusées.</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
</context>
<context>
    <name>OrientLines</name>
    <message>
        <source>A page with a plan, and a table of what was turned and flagged.</source>
        <translation>Une page avec un plan et un tableau de ce qui a été retourné et signalé.</translation>
    </message>
    <message>
        <source>A rule is tried on many stretches of each line. At least half of its length must tell a direction, and the stated share of that must agree; otherwise the line keeps its direction and gets a flag, a reason and a place to look at.</source>
        <translation>Une règle est essayée sur de nombreux segments de chaque ligne. Au moins la moitié de sa longueur doit indiquer un sens, et la part demandée doit s&apos;accorder ; sinon la ligne garde son sens et reçoit un signalement, une raison et un lieu à examiner.</translation>
    </message>
    <message>
        <source>All lines with their attributes, and what was done: flipped, evidence, flag, why. A field that has one of these names already is kept with “_in” after its name.</source>
        <translation>Toutes les lignes avec leurs attributs, et ce qui a été fait : flipped, evidence, flag, why. Un champ qui porte déjà un de ces noms est gardé avec « _in » à la suite de son nom.</translation>
    </message>
    <message>
        <source>Anticlockwise</source>
        <translation>Sens antihoraire</translation>
    </message>
    <message>
        <source>As the longest of the pieces that touch</source>
        <translation>Comme le plus long des tronçons qui se touchent</translation>
    </message>
    <message>
        <source>Bearing (degrees clockwise from grid north)</source>
        <translation>Gisement (degrés dans le sens horaire depuis le nord de la grille)</translation>
    </message>
    <message>
        <source>By a bearing</source>
        <translation>Par un gisement</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Clockwise</source>
        <translation>Sens horaire</translation>
    </message>
    <message>
        <source>Direction</source>
        <translation>Sens</translation>
    </message>
    <message>
        <source>Downhill</source>
        <translation>Vers l&apos;aval</translation>
    </message>
    <message>
        <source>Ends that differ by more are not joined, and are flagged.</source>
        <translation>Les extrémités dont l&apos;écart est plus grand ne sont pas jointes, et sont signalées.</translation>
    </message>
    <message>
        <source>Ends touch within</source>
        <translation>Les extrémités se touchent à moins de</translation>
    </message>
    <message>
        <source>Every vertex keeps its height and its M when a line is turned, so that M falls along a line that was turned; stations of later steps are counted anew from the first vertex. True arcs stay true arcs.</source>
        <translation>Chaque sommet garde son altitude et son M quand une ligne est retournée, M décroît donc le long d&apos;une ligne retournée ; les abscisses des étapes suivantes sont recomptées depuis le premier sommet. Les vrais arcs restent de vrais arcs.</translation>
    </message>
    <message>
        <source>Field with names</source>
        <translation>Champ des noms</translation>
    </message>
    <message>
        <source>For the rule by a bearing: 0 north, 90 east, 180 south, 270 west.</source>
        <translation>Pour la règle par un gisement : 0 nord, 90 est, 180 sud, 270 ouest.</translation>
    </message>
    <message>
        <source>For the rules downhill and uphill: a mesh, a polygon layer with Z, or a raster, in the CRS of the lines. Left blank, the heights of the lines themselves count.</source>
        <translation>Pour les règles vers l&apos;aval et vers l&apos;amont : un maillage, une couche de polygones avec Z ou un raster, dans le SCR des lignes. Laissé vide, les altitudes des lignes elles-mêmes comptent.</translation>
    </message>
    <message>
        <source>Greatest difference of heights at a joint</source>
        <translation>Plus grand écart d&apos;altitude à une jonction</translation>
    </message>
    <message>
        <source>Join pieces that touch</source>
        <translation>Joindre les tronçons qui se touchent</translation>
    </message>
    <message>
        <source>Joints where the M of the pieces do not agree: {count}. M is no station along these lines; count stations from a start station.</source>
        <translation>Jonctions où les M des tronçons ne s&apos;accordent pas : {count}. M n&apos;est pas une abscisse le long de ces lignes ; comptez les abscisses depuis une abscisse de départ.</translation>
    </message>
    <message>
        <source>Keeps a curb from being chained or joined to a walk that it meets. Without a field with names it has no effect.</source>
        <translation>Empêche qu&apos;une bordure soit enchaînée ou jointe à une allée qu&apos;elle rencontre. Sans champ de noms, sans effet.</translation>
    </message>
    <message>
        <source>Largest move of an end</source>
        <translation>Plus grand déplacement d&apos;une extrémité</translation>
    </message>
    <message>
        <source>Least evidence (percent)</source>
        <translation>Preuve minimale (pour cent)</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Lignes</translation>
    </message>
    <message>
        <source>Lines flagged</source>
        <translation>Lignes signalées</translation>
    </message>
    <message>
        <source>Lines made of joined pieces</source>
        <translation>Lignes faites de tronçons joints</translation>
    </message>
    <message>
        <source>Lines read</source>
        <translation>Lignes lues</translation>
    </message>
    <message>
        <source>Lines that meet another one at a different height, and were not joined there: {count}.</source>
        <translation>Lignes qui en rencontrent une autre à une altitude différente, et n&apos;y ont pas été jointes : {count}.</translation>
    </message>
    <message>
        <source>Lines to give a direction, in a projected CRS. Each part of a multipart line is a line of its own, and a feature of its own in the result.</source>
        <translation>Lignes auxquelles donner un sens, dans un SCR projeté. Chaque partie d&apos;une ligne multiple est une ligne à part, et une entité à part dans le résultat.</translation>
    </message>
    <message>
        <source>Lines turned round</source>
        <translation>Lignes retournées</translation>
    </message>
    <message>
        <source>Lines whose direction is not known: {count}. They are flagged; decide their direction by hand before work starts.</source>
        <translation>Lignes dont le sens n&apos;est pas connu : {count}. Elles sont signalées ; décidez leur sens à la main avant le début des travaux.</translation>
    </message>
    <message>
        <source>Lines whose direction is right, such as an alignment, for the rule up-station. The nearest one counts at each place.</source>
        <translation>Lignes dont le sens est bon, comme un axe, pour la règle des abscisses croissantes. La plus proche compte en chaque lieu.</translation>
    </message>
    <message>
        <source>Longest: the longest piece of each chain of touching pieces sets the direction of all. Up-station: stations along the reference grow along the line. Bearing: within 67.5 degrees of it. Clockwise and anticlockwise, seen from above: closed lines, and open ones that clearly go round. Downhill and uphill: on the surface, or by the heights of the lines.</source>
        <translation>Le plus long : le tronçon le plus long de chaque chaîne de tronçons qui se touchent donne le sens de tous. Abscisses croissantes : les abscisses de la référence croissent le long de la ligne. Gisement : à moins de 67,5 degrés de celui-ci. Sens horaire et antihoraire, vus d&apos;en haut : les lignes fermées, et celles ouvertes qui font clairement un tour. Vers l&apos;aval et vers l&apos;amont : sur la surface, ou par les altitudes des lignes.</translation>
    </message>
    <message>
        <source>Makes one line of each chain of pieces, before the rule is tried on it. Ends whose heights differ by more than allowed are flagged and not joined.</source>
        <translation>Fait une ligne de chaque chaîne de tronçons, avant que la règle y soit essayée. Les extrémités dont les altitudes diffèrent plus qu&apos;admis sont signalées et non jointes.</translation>
    </message>
    <message>
        <source>Of the length that tells a direction this share must agree (of the enclosed area, for lines that go round); otherwise the line is flagged.</source>
        <translation>De la longueur qui indique un sens, cette part doit s&apos;accorder (de l&apos;aire enclose, pour les lignes qui font un tour) ; sinon la ligne est signalée.</translation>
    </message>
    <message>
        <source>Only pieces of one name touch</source>
        <translation>Seuls les tronçons d&apos;un même nom se touchent</translation>
    </message>
    <message>
        <source>Orient lines</source>
        <translation>Orienter les lignes</translation>
    </message>
    <message>
        <source>Oriented lines</source>
        <translation>Lignes orientées</translation>
    </message>
    <message>
        <source>Pieces are joined where two ends meet, and where more meet only along the clearly straightest way through. Rings of pieces become closed lines that start with their longest piece. A joined line lists its pieces, those turned round with a minus; it keeps the attributes in which all of its pieces agree.</source>
        <translation>Les tronçons sont joints là où deux extrémités se rencontrent, et là où il y en a plus seulement par le passage nettement le plus droit. Les anneaux de tronçons deviennent des lignes fermées qui commencent par leur tronçon le plus long. Une ligne jointe énumère ses tronçons, ceux retournés avec un moins ; elle garde les attributs sur lesquels tous ses tronçons s&apos;accordent.</translation>
    </message>
    <message>
        <source>Pieces joined</source>
        <translation>Tronçons joints</translation>
    </message>
    <message>
        <source>Places where pieces were not joined</source>
        <translation>Lieux où des tronçons n&apos;ont pas été joints</translation>
    </message>
    <message>
        <source>Plan distance between two ends that are meant to be one, for joining and for the rule longest. Joined ends move to the middle between them, an end on an arc stays; the largest move is told.</source>
        <translation>Distance en plan entre deux extrémités qui doivent n&apos;en faire qu&apos;une, pour joindre et pour la règle du plus long. Les extrémités jointes vont au milieu entre elles, une extrémité sur un arc reste ; le plus grand déplacement est dit.</translation>
    </message>
    <message>
        <source>Plan unit</source>
        <translation>Unité en plan</translation>
    </message>
    <message>
        <source>Reference</source>
        <translation>Référence</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Right and left of a line, its stations, and the way in which a machine is led along it all follow from the direction in which it is drawn. Run this first, and later steps mean the same side on every line.</source>
        <translation>La droite et la gauche d&apos;une ligne, ses abscisses et la façon dont une machine y est menée suivent toutes du sens dans lequel elle est dessinée. Exécutez ceci d&apos;abord, et les étapes suivantes désignent le même côté sur chaque ligne.</translation>
    </message>
    <message>
        <source>The lines have no heights, so that none of them falls or rises: choose a layer for Surface.</source>
        <translation>Les lignes n&apos;ont pas d&apos;altitudes, aucune ne descend ni ne monte : choisissez une couche pour Surface.</translation>
    </message>
    <message>
        <source>The rule “{rule}” needs lines to go by: choose a layer for Reference.</source>
        <translation>La règle « {rule} » demande des lignes à suivre : choisissez une couche pour Référence.</translation>
    </message>
    <message>
        <source>Turns lines round so that all of them run one way by a stated rule, and joins the pieces that touch; what cannot be decided stays as it is and is flagged.</source>
        <translation>Retourne des lignes pour que toutes aillent dans un sens selon une règle donnée, et joint les tronçons qui se touchent ; ce qui ne peut être décidé reste tel quel et est signalé.</translation>
    </message>
    <message>
        <source>Up-station along the reference</source>
        <translation>Abscisses croissantes le long de la référence</translation>
    </message>
    <message>
        <source>Uphill</source>
        <translation>Vers l&apos;amont</translation>
    </message>
    <message>
        <source>What people call each line. Left blank, a field called “name” is used if there is one, else the feature id.</source>
        <translation>Le nom de chaque ligne. Laissé vide, un champ appelé « name » sert s&apos;il existe, sinon l&apos;identifiant de l&apos;entité.</translation>
    </message>
    <message>
        <source>as drawn</source>
        <translation>comme dessinée</translation>
    </message>
    <message>
        <source>direction,reverse,flip,turn round,join,merge,chain,stationing,clockwise,downhill,bearing,curb,kerb</source>
        <translation>sens,direction,inverser,retourner,joindre,fusionner,chaîne,abscisse,horaire,aval,gisement,bordure</translation>
    </message>
    <message>
        <source>it is less than 0, write 0 or more.</source>
        <translation>elle est inférieure à 0, écrivez 0 ou plus.</translation>
    </message>
    <message>
        <source>turned</source>
        <translation>retournée</translation>
    </message>
    <message>
        <source>{count} of {total}</source>
        <translation>{count} sur {total}</translation>
    </message>
    <message>
        <source>{count} of {total} lines were turned round.</source>
        <translation>{count} lignes sur {total} ont été retournées.</translation>
    </message>
    <message>
        <source>{label}: there is no line with a length in it.</source>
        <translation>{label} : il n&apos;y a aucune ligne ayant une longueur.</translation>
    </message>
    <message>
        <source>Reference (for up-station)</source>
        <translation>Référence (pour les abscisses croissantes)</translation>
    </message>
    <message>
        <source>Surface (for downhill, uphill)</source>
        <translation>Surface (pour l&apos;aval et l&apos;amont)</translation>
    </message>
    <message>
        <source>Pieces joined: {pieces}; lines made of them: {lines}; largest move of an end: {move:.4f} {symbol}.</source>
        <translation>Tronçons joints : {pieces} ; lignes qui en sont faites : {lines} ; plus grand déplacement d&apos;une extrémité : {move:.4f} {symbol}.</translation>
    </message>
</context>
<context>
    <name>PassLines</name>
    <message>
        <source>A pass covers the strip of the working width along its part inside the zone, cut square at both ends. What no strip covers is left over: triangles at slanted edges, corners of bends, the margin to turn.</source>
        <translation>Une passe couvre la bande de la largeur de travail le long de sa partie dans la zone, coupée d&apos;équerre aux deux bouts. Ce qu&apos;aucune bande ne couvre est laissé : triangles aux bords obliques, angles des virages, marge pour tourner.</translation>
    </message>
    <message>
        <source>Along</source>
        <translation>Le long de</translation>
    </message>
    <message>
        <source>Always the same way</source>
        <translation>Toujours dans le même sens</translation>
    </message>
    <message>
        <source>Area covered (square CRS units)</source>
        <translation>Aire couverte (unités carrées du SCR)</translation>
    </message>
    <message>
        <source>Area covered more than once (square CRS units)</source>
        <translation>Aire couverte plus d&apos;une fois (unités carrées du SCR)</translation>
    </message>
    <message>
        <source>Area left over (square CRS units)</source>
        <translation>Aire laissée (unités carrées du SCR)</translation>
    </message>
    <message>
        <source>Area of the zones (square CRS units)</source>
        <translation>Aire des zones (unités carrées du SCR)</translation>
    </message>
    <message>
        <source>Areas to drive over, in a projected CRS.</source>
        <translation>Aires à parcourir, dans un SCR projeté.</translation>
    </message>
    <message>
        <source>Bearing (degrees)</source>
        <translation>Gisement (degrés)</translation>
    </message>
    <message>
        <source>By how much neighbouring passes overlap at least: a length such as 6 in, or a share of the width such as 10 %.</source>
        <translation>De combien les passes voisines se recouvrent au moins : une longueur comme 6 in, ou une part de la largeur comme 10 %.</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Depth</source>
        <translation>Profondeur</translation>
    </message>
    <message>
        <source>Depth of the passes below the surface; a minus sign raises.</source>
        <translation>Profondeur des passes sous la surface ; un signe moins relève.</translation>
    </message>
    <message>
        <source>Direction of the first pass, clockwise from grid north, where no line is given. Blank: along the longer side of each zone.</source>
        <translation>Direction de la première passe, dans le sens horaire depuis le nord du quadrillage, si aucune ligne n&apos;est donnée. Vide : le long du grand côté de chaque zone.</translation>
    </message>
    <message>
        <source>Evenly between both edges</source>
        <translation>Régulièrement entre les deux bords</translation>
    </message>
    <message>
        <source>Evenly: the outer passes run along both edges, and the overlap grows until the passes fit. Fixed: the overlap is kept from the first edge on, and the last pass overlaps more.</source>
        <translation>Régulièrement : les passes extérieures suivent les deux bords, et le recouvrement croît jusqu&apos;à ce que les passes tiennent. Fixe : le recouvrement est gardé depuis le premier bord, et la dernière passe recouvre plus.</translation>
    </message>
    <message>
        <source>Field with names</source>
        <translation>Champ des noms</translation>
    </message>
    <message>
        <source>First pass</source>
        <translation>Première passe</translation>
    </message>
    <message>
        <source>Fixed overlap from the first edge</source>
        <translation>Recouvrement fixe depuis le premier bord</translation>
    </message>
    <message>
        <source>Gives the passes heights. It must be in the CRS of the zones.</source>
        <translation>Donne des altitudes aux passes. Elle doit être dans le SCR des zones.</translation>
    </message>
    <message>
        <source>Lays parallel passes of a working width over zones, in the order they are driven, and says what they cover and what is left over.</source>
        <translation>Pose sur des zones des passes parallèles d&apos;une largeur de travail, dans l&apos;ordre où elles sont parcourues, et dit ce qu&apos;elles couvrent et ce qui est laissé.</translation>
    </message>
    <message>
        <source>Left over</source>
        <translation>Laissé</translation>
    </message>
    <message>
        <source>Length left free at both ends of each pass.</source>
        <translation>Longueur laissée libre aux deux bouts de chaque passe.</translation>
    </message>
    <message>
        <source>Length of all passes (CRS unit)</source>
        <translation>Longueur de toutes les passes (unité du SCR)</translation>
    </message>
    <message>
        <source>Lines in the direction they are driven, with the fields: zone_id, zone, order (in the zone), pass (its number), piece; travel (wind) and bearing; ahead (as the line runs); signed_offset from the line (+ right, - left); width, length.</source>
        <translation>Lignes dans le sens où elles sont parcourues, avec les champs : zone_id, zone, order (dans la zone), pass (son numéro), piece ; travel (point cardinal) et bearing ; ahead (dans le sens de la ligne) ; signed_offset de la ligne (+ droite, - gauche) ; width, length.</translation>
    </message>
    <message>
        <source>Lines that the passes are parallel to; each zone takes the one nearest to it, carried straight on at its ends. Their direction is that of the first pass.</source>
        <translation>Lignes auxquelles les passes sont parallèles ; chaque zone prend la plus proche, prolongée tout droit à ses bouts. Leur sens est celui de la première passe.</translation>
    </message>
    <message>
        <source>Machine drives</source>
        <translation>La machine roule</translation>
    </message>
    <message>
        <source>Margin to turn</source>
        <translation>Marge pour tourner</translation>
    </message>
    <message>
        <source>Number of passes</source>
        <translation>Nombre de passes</translation>
    </message>
    <message>
        <source>On the left</source>
        <translation>À gauche</translation>
    </message>
    <message>
        <source>On the right</source>
        <translation>À droite</translation>
    </message>
    <message>
        <source>Overlap</source>
        <translation>Recouvrement</translation>
    </message>
    <message>
        <source>Page with the figures of each zone and a plan.</source>
        <translation>Page avec les chiffres de chaque zone et un plan.</translation>
    </message>
    <message>
        <source>Pass lines</source>
        <translation>Lignes de passe</translation>
    </message>
    <message>
        <source>Passes run parallel to a line or to a bearing; without either, along the longer side of the narrowest rectangle around each zone. They are clipped to the zone: where it is interrupted, a pass has several pieces.</source>
        <translation>Les passes sont parallèles à une ligne ou à un gisement ; sans l&apos;un ni l&apos;autre, au grand côté du rectangle le plus étroit autour de chaque zone. Elles sont découpées à la zone : là où celle-ci s&apos;interrompt, une passe a plusieurs morceaux.</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Side on which it starts, looking in the direction of the first pass.</source>
        <translation>Côté où elle commence, vu dans le sens de la première passe.</translation>
    </message>
    <message>
        <source>Sides are seen in the direction in which the first pass is driven. Between the pieces of one pass the machine crosses ground outside the zone.</source>
        <translation>Les côtés sont vus dans le sens où la première passe est parcourue. Entre les morceaux d&apos;une passe la machine traverse du terrain hors de la zone.</translation>
    </message>
    <message>
        <source>Spread</source>
        <translation>Répartition</translation>
    </message>
    <message>
        <source>Surface</source>
        <translation>Surface</translation>
    </message>
    <message>
        <source>There is no pass in {zones}: the margin to turn takes all of it.</source>
        <translation>Il n&apos;y a pas de passe dans {zones} : la marge pour tourner la prend toute.</translation>
    </message>
    <message>
        <source>To and fro</source>
        <translation>Aller et retour</translation>
    </message>
    <message>
        <source>To and fro: every other pass is driven back.</source>
        <translation>Aller et retour : une passe sur deux est parcourue en retour.</translation>
    </message>
    <message>
        <source>What no pass covers, with its area.</source>
        <translation>Ce qu&apos;aucune passe ne couvre, avec son aire.</translation>
    </message>
    <message>
        <source>Width that one pass covers. Without a unit it is in the unit of the CRS.</source>
        <translation>Largeur que couvre une passe. Sans unité, elle est dans l&apos;unité du SCR.</translation>
    </message>
    <message>
        <source>Working width</source>
        <translation>Largeur de travail</translation>
    </message>
    <message>
        <source>Zone {id}: there would be more than {most:,} passes; check the width and its unit.</source>
        <translation>Zone {id} : il y aurait plus de {most:,} passes ; vérifiez la largeur et son unité.</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
    <message>
        <source>it must be from 0 up to less than the width.</source>
        <translation>il doit aller de 0 à moins que la largeur.</translation>
    </message>
    <message>
        <source>it must be greater than 0.</source>
        <translation>elle doit dépasser 0.</translation>
    </message>
    <message>
        <source>it must not be negative.</source>
        <translation>elle ne doit pas être négative.</translation>
    </message>
    <message>
        <source>pass,swath,strip,coverage,parallel,working width,overlap,to and fro,roller,grader,mowing</source>
        <translation>passe,bande,couverture,parallèle,largeur de travail,recouvrement,aller et retour,rouleau,niveleuse,tonte</translation>
    </message>
    <message>
        <source>there is no zone in it.</source>
        <translation>il n&apos;y a pas de zone dedans.</translation>
    </message>
    <message>
        <source>write a width, such as 8 ft.</source>
        <translation>écrivez une largeur, comme 8 ft.</translation>
    </message>
    <message>
        <source>zone {id}</source>
        <translation>zone {id}</translation>
    </message>
    <message>
        <source>{count} passes over {zones} zones: {covered:.1f} % covered, {left:,.1f} sq {unit} left over.</source>
        <translation>{count} passes sur {zones} zones : {covered:.1f} % couverts, {left:,.1f} {unit} carrés laissés.</translation>
    </message>
    <message>
        <source>{count} stretches have no height of the surface and are left out of the lines.</source>
        <translation>{count} tronçons n&apos;ont pas d&apos;altitude de la surface et manquent aux lignes.</translation>
    </message>
    <message>
        <source>{there}, then {back}</source>
        <translation>{there}, puis {back}</translation>
    </message>
    <message>
        <source>{zone}: {count} passes, {covered:.1f} % of {area:,.1f} sq {unit} covered, {left:,.1f} sq {unit} left over.</source>
        <translation>{zone} : {count} passes, {covered:.1f} % de {area:,.1f} {unit} carrés couverts, {left:,.1f} {unit} carrés laissés.</translation>
    </message>
    <message>
        <source>“{text}” is no percentage: write it like 10 %.</source>
        <translation>« {text} » n&apos;est pas un pourcentage : écrivez-le comme 10 %.</translation>
    </message>
</context>
<context>
    <name>Rasters</name>
    <message>
        <source>Creation options</source>
        <translation>Options de création</translation>
    </message>
    <message>
        <source>Options of the GeoTIFF driver of GDAL, separated by |, instead of the usual ones (tiles of 256 pixels, lossless compression), e.g. COMPRESS=ZSTD|TILED=YES.</source>
        <translation>Options du pilote GeoTIFF de GDAL, séparées par |, au lieu des habituelles (tuiles de 256 pixels, compression sans perte), p. ex. COMPRESS=ZSTD|TILED=YES.</translation>
    </message>
</context>
<context>
    <name>ReadLandXml</name>
    <message>
        <source>A surface has a hole where a face is left out: look at it before use.</source>
        <translation>Une surface a un trou là où une facette est omise : regardez-la avant de vous en servir.</translation>
    </message>
    <message>
        <source>Alignment “{name}”: {lines} lines, {arcs} arcs, {spirals} spirals; length {length} {symbol}; starts at station {station}; {profiles} vertical profiles, which are not read.</source>
        <translation>Axe « {name} » : {lines} droites, {arcs} arcs, {spirals} clothoïdes ; longueur {length} {symbol} ; commence à l&apos;abscisse {station} ; {profiles} profils en long, qui ne sont pas lus.</translation>
    </message>
    <message>
        <source>Alignments</source>
        <translation>Axes</translation>
    </message>
    <message>
        <source>Alignments of {name}</source>
        <translation>Axes de {name}</translation>
    </message>
    <message>
        <source>Alignments with true arcs and the station as M, drawn up-station. Vertical profiles are counted and not read.</source>
        <translation>Axes avec de vrais arcs et l&apos;abscisse en M, dessinés dans le sens des abscisses croissantes. Les profils en long sont comptés et non lus.</translation>
    </message>
    <message>
        <source>Arcs of alignments stay true arcs; spirals become dense points within a millimetre. M is the station without station equations, so that it always grows; the equations stand in a field. Directions (dir) in the file are never used, since files disagree on their zero and sense.</source>
        <translation>Les arcs des axes restent de vrais arcs ; les clothoïdes deviennent des points denses au millimètre près. M est l&apos;abscisse sans les équations d&apos;abscisses, afin de toujours croître ; les équations sont dans un champ. Les directions (dir) du fichier ne servent jamais, car les fichiers divergent sur leur origine et leur sens.</translation>
    </message>
    <message>
        <source>Area on the slope</source>
        <translation>Aire selon la pente</translation>
    </message>
    <message>
        <source>Boundaries</source>
        <translation>Limites</translation>
    </message>
    <message>
        <source>Breaklines</source>
        <translation>Lignes caractéristiques</translation>
    </message>
    <message>
        <source>Breaklines, boundaries and contours of the surface, and plan features, in their direction in the file.</source>
        <translation>Lignes caractéristiques, limites et courbes de niveau de la surface, et éléments en plan, dans leur sens dans le fichier.</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>CRS: “{value}” is not known, choose it from the list.</source>
        <translation>SCR : « {value} » n&apos;est pas connu, choisissez-le dans la liste.</translation>
    </message>
    <message>
        <source>Convert from the file&apos;s unit to that of the CRS</source>
        <translation>Convertir de l&apos;unité du fichier à celle du SCR</translation>
    </message>
    <message>
        <source>Coordinate-geometry points, data points, and points of the surface that no face uses.</source>
        <translation>Points topographiques, points de données, et points de la surface qu&apos;aucune facette n&apos;utilise.</translation>
    </message>
    <message>
        <source>Existing ground and finished grade may be on different height datums even in one file: compare a known point of both before depths are taken between them.</source>
        <translation>Le terrain existant et le projet fini peuvent avoir des références d&apos;altitude différentes même dans un seul fichier : comparez un point connu des deux avant d&apos;en tirer des profondeurs.</translation>
    </message>
    <message>
        <source>Faces</source>
        <translation>Facettes</translation>
    </message>
    <message>
        <source>Faces that name missing points</source>
        <translation>Facettes qui citent des points absents</translation>
    </message>
    <message>
        <source>Files of LandXML 1.0 to 2.0 and of national profiles are read. Points are northing, easting, elevation in the file and x = easting, y = northing here. Faces marked invisible are not part of the surface. Nothing is repaired in silence: what may be wrong is a warning and is counted, and what cannot be read is refused with its element and line.</source>
        <translation>Les fichiers LandXML 1.0 à 2.0 et de profils nationaux sont lus. Les points sont nord, est, altitude dans le fichier, et x = est, y = nord ici. Les facettes marquées invisibles ne font pas partie de la surface. Rien n&apos;est réparé en silence : ce qui peut être faux est un avertissement compté, et ce qui ne peut pas être lu est refusé avec son élément et sa ligne.</translation>
    </message>
    <message>
        <source>If the file&apos;s unit is not that of the CRS</source>
        <translation>Si l&apos;unité du fichier n&apos;est pas celle du SCR</translation>
    </message>
    <message>
        <source>Invisible faces</source>
        <translation>Facettes invisibles</translation>
    </message>
    <message>
        <source>Keep the numbers: the file states a wrong unit</source>
        <translation>Garder les nombres : le fichier indique une unité fausse</translation>
    </message>
    <message>
        <source>LandXML file</source>
        <translation>Fichier LandXML</translation>
    </message>
    <message>
        <source>LandXML files</source>
        <translation>Fichiers LandXML</translation>
    </message>
    <message>
        <source>Leave them out and count them</source>
        <translation>Les omettre et les compter</translation>
    </message>
    <message>
        <source>Length of the alignments</source>
        <translation>Longueur des axes</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Lignes</translation>
    </message>
    <message>
        <source>Lines of all kinds</source>
        <translation>Lignes de tous genres</translation>
    </message>
    <message>
        <source>Lines: {breaklines} breaklines, {boundaries} boundaries, {contours} contours, {features} plan features.</source>
        <translation>Lignes : {breaklines} lignes caractéristiques, {boundaries} limites, {contours} courbes de niveau, {features} éléments en plan.</translation>
    </message>
    <message>
        <source>Mesh of the visible faces, exact to the last digit.</source>
        <translation>Maillage des facettes visibles, exact jusqu&apos;au dernier chiffre.</translation>
    </message>
    <message>
        <source>Name of the surface</source>
        <translation>Nom de la surface</translation>
    </message>
    <message>
        <source>Not read: {count} x {element}.</source>
        <translation>Non lu : {count} x {element}.</translation>
    </message>
    <message>
        <source>One triangle a feature, with its areas and grade (percent).</source>
        <translation>Un triangle par entité, avec ses aires et sa pente (pour cent).</translation>
    </message>
    <message>
        <source>Plan area</source>
        <translation>Aire en plan</translation>
    </message>
    <message>
        <source>Points</source>
        <translation>Points</translation>
    </message>
    <message>
        <source>Points of the surface</source>
        <translation>Points de la surface</translation>
    </message>
    <message>
        <source>Points of {name}</source>
        <translation>Points de {name}</translation>
    </message>
    <message>
        <source>Projected CRS of the coordinates. Leave it blank to take the EPSG code that the file states. Coordinates are never reprojected.</source>
        <translation>SCR projeté des coordonnées. À laisser vide pour prendre le code EPSG que donne le fichier. Les coordonnées ne sont jamais reprojetées.</translation>
    </message>
    <message>
        <source>Read LandXML</source>
        <translation>Lire un LandXML</translation>
    </message>
    <message>
        <source>Reads the surface, its lines, the alignments and the points of a LandXML file, and lists what the file holds.</source>
        <translation>Lit la surface, ses lignes, les axes et les points d&apos;un fichier LandXML, et liste ce que le fichier contient.</translation>
    </message>
    <message>
        <source>Single points</source>
        <translation>Points isolés</translation>
    </message>
    <message>
        <source>Single points: {count}.</source>
        <translation>Points isolés : {count}.</translation>
    </message>
    <message>
        <source>Stop and say so</source>
        <translation>S&apos;arrêter et le dire</translation>
    </message>
    <message>
        <source>Stop and say where</source>
        <translation>S&apos;arrêter et dire où</translation>
    </message>
    <message>
        <source>Surface as TIN</source>
        <translation>Surface en TIN</translation>
    </message>
    <message>
        <source>Surface read</source>
        <translation>Surface lue</translation>
    </message>
    <message>
        <source>Surface “{name}” ({kind}): not read.</source>
        <translation>Surface « {name} » ({kind}) : non lue.</translation>
    </message>
    <message>
        <source>Surface “{name}”: {points} points, {faces} faces, {hidden} invisible faces; plan area {plan} {symbol}², on the slope {sloped} {symbol}².</source>
        <translation>Surface « {name} » : {points} points, {faces} facettes, {hidden} facettes invisibles ; aire en plan {plan} {symbol}², selon la pente {sloped} {symbol}².</translation>
    </message>
    <message>
        <source>Surfaces in the file</source>
        <translation>Surfaces du fichier</translation>
    </message>
    <message>
        <source>The file. It is not changed.</source>
        <translation>Le fichier. Il n&apos;est pas modifié.</translation>
    </message>
    <message>
        <source>The international foot (0.3048 m) and the US survey foot (1200/3937 m) count as different: at 2,000,000 ft the wrong one moves a point by 4 ft. Find out which is true before choosing.</source>
        <translation>Le pied international (0,3048 m) et le pied d&apos;arpentage américain (1200/3937 m) comptent comme différents : à 2 000 000 ft, le mauvais déplace un point de 4 ft. Cherchez lequel est vrai avant de choisir.</translation>
    </message>
    <message>
        <source>Things that may be wrong</source>
        <translation>Ce qui peut être faux</translation>
    </message>
    <message>
        <source>Visible faces</source>
        <translation>Facettes visibles</translation>
    </message>
    <message>
        <source>Which surface to read, by its name in the file. Leave it blank if there is only one; if there are several, the message lists their names.</source>
        <translation>La surface à lire, par son nom dans le fichier. À laisser vide s&apos;il n&apos;y en a qu&apos;une ; s&apos;il y en a plusieurs, le message liste leurs noms.</translation>
    </message>
    <message>
        <source>landxml,xml,import,design,surface,tin,breaklines,alignment,station</source>
        <translation>landxml,xml,importer,projet,surface,tin,lignes caractéristiques,axe,abscisse</translation>
    </message>
    <message>
        <source>without faces</source>
        <translation>sans facettes</translation>
    </message>
    <message>
        <source>{file}: LandXML {version}, namespace {namespace}; unit {unit}; coordinate system {name}, EPSG {code}, heights {vertical}.</source>
        <translation>{file} : LandXML {version}, espace de noms {namespace} ; unité {unit} ; système de coordonnées {name}, EPSG {code}, altitudes {vertical}.</translation>
    </message>
    <message>
        <source>{label}: the file holds none, the layer is empty.</source>
        <translation>{label} : le fichier n&apos;en contient pas, la couche est vide.</translation>
    </message>
    <message>
        <source>{name}: faces</source>
        <translation>{name} : facettes</translation>
    </message>
    <message>
        <source>{name}: lines</source>
        <translation>{name} : lignes</translation>
    </message>
    <message>
        <source>All files</source>
        <translation>Tous les fichiers</translation>
    </message>
</context>
<context>
    <name>Report</name>
    <message>
        <source>Before you dig</source>
        <translation>Avant de creuser</translation>
    </message>
    <message>
        <source>Conventions</source>
        <translation>Conventions</translation>
    </message>
    <message>
        <source>Date</source>
        <translation>Date</translation>
    </message>
    <message>
        <source>Depth</source>
        <translation>Profondeur</translation>
    </message>
    <message>
        <source>Have underground utilities located and marked before any digging.</source>
        <translation>Faites repérer et marquer les réseaux enterrés avant de creuser.</translation>
    </message>
    <message>
        <source>Left or right of a line, looking from its first to its last vertex. Signed offset: + is right, - is left.</source>
        <translation>À gauche ou à droite d&apos;une ligne, en regardant de son premier à son dernier sommet. Décalage signé : + à droite, - à gauche.</translation>
    </message>
    <message>
        <source>Local codes, the contract documents and the licensed professional in charge take precedence over this document.</source>
        <translation>Les règles locales, les pièces du marché et le professionnel habilité responsable priment sur ce document.</translation>
    </message>
    <message>
        <source>No data</source>
        <translation>Sans données</translation>
    </message>
    <message>
        <source>Positive is below the design; a minus sign raises.</source>
        <translation>Positive sous le projet ; un signe moins relève.</translation>
    </message>
    <message>
        <source>Protect excavations against cave-in: a competent person inspects them before anyone enters and whenever conditions change.</source>
        <translation>Protégez les fouilles contre l&apos;éboulement : une personne compétente les inspecte avant que quiconque y entre et dès que les conditions changent.</translation>
    </message>
    <message>
        <source>Side</source>
        <translation>Côté</translation>
    </message>
    <message>
        <source>Thickness</source>
        <translation>Épaisseur</translation>
    </message>
    <message>
        <source>Verify on a known point, in height and in plan, before automatics are engaged, and again whenever a file, a blade or a base station changes.</source>
        <translation>Vérifiez sur un point connu, en altitude et en plan, avant d&apos;engager les automatismes, et de nouveau dès que change un fichier, une lame ou une station de base.</translation>
    </message>
    <message>
        <source>Driver sees it</source>
        <translation>Le conducteur la voit à</translation>
    </message>
    <message>
        <source>Evidence</source>
        <translation>Preuve</translation>
    </message>
    <message>
        <source>Guidelines</source>
        <translation>Lignes guides</translation>
    </message>
    <message>
        <source>Length</source>
        <translation>Longueur</translation>
    </message>
    <message>
        <source>Lies to the</source>
        <translation>Se trouve vers</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Ligne</translation>
    </message>
    <message>
        <source>N</source>
        <translation>N</translation>
    </message>
    <message>
        <source>No guideline was laid.</source>
        <translation>Aucune ligne guide n&apos;a été posée.</translation>
    </message>
    <message>
        <source>No.</source>
        <translation>N°</translation>
    </message>
    <message>
        <source>North is up. The dark line is the source; the dot is its first vertex and the arrows its direction. The hatched band lies on the side of the guideline; its width is not to scale.</source>
        <translation>Le nord est en haut. La ligne sombre est la source ; le point est son premier sommet et les flèches son sens. La bande hachurée est du côté de la ligne guide ; sa largeur n&apos;est pas à l&apos;échelle.</translation>
    </message>
    <message>
        <source>Not settled: decide these by hand</source>
        <translation>Non établis : à décider à la main</translation>
    </message>
    <message>
        <source>Offset</source>
        <translation>Décalage</translation>
    </message>
    <message>
        <source>On the way back</source>
        <translation>Au retour</translation>
    </message>
    <message>
        <source>Read out</source>
        <translation>À lire à voix haute</translation>
    </message>
    <message>
        <source>Side of the line</source>
        <translation>Côté de la ligne</translation>
    </message>
    <message>
        <source>Sketch of the line and its side, north up</source>
        <translation>Croquis de la ligne et de son côté, nord en haut</translation>
    </message>
    <message>
        <source>Sketches</source>
        <translation>Croquis</translation>
    </message>
    <message>
        <source>Take care</source>
        <translation>Attention</translation>
    </message>
    <message>
        <source>The first {most} of {count} lines are drawn; all are in the table.</source>
        <translation>Les {most} premières de {count} lignes sont dessinées ; toutes sont dans le tableau.</translation>
    </message>
    <message>
        <source>The first {most} of {count}; the layer holds all.</source>
        <translation>Les {most} premières de {count} ; la couche les contient toutes.</translation>
    </message>
    <message>
        <source>Where</source>
        <translation>Où</translation>
    </message>
    <message>
        <source>Which side</source>
        <translation>Quel côté</translation>
    </message>
    <message>
        <source>Why, and what to do</source>
        <translation>Pourquoi, et que faire</translation>
    </message>
    <message>
        <source>{side}, unlike the line</source>
        <translation>{side}, à la différence de la ligne</translation>
    </message>
    <message>
        <source>Depths are plumb: measured vertically, as a machine works. Those called square are measured at right angles to the design.</source>
        <translation>Les profondeurs sont d&apos;aplomb&#xa0;: mesurées à la verticale, comme travaille une machine. Celles dites perpendiculaires sont mesurées d&apos;équerre au projet.</translation>
    </message>
    <message>
        <source>Outside the design there is no result, unless its slope was carried on, which is flagged.</source>
        <translation>Hors du projet il n&apos;y a pas de résultat, sauf si sa pente a été prolongée, ce qui est signalé.</translation>
    </message>
    <message>
        <source>Flag</source>
        <translation>Signal</translation>
    </message>
    <message>
        <source>To be looked at</source>
        <translation>À regarder</translation>
    </message>
    <message>
        <source>Why</source>
        <translation>Pourquoi</translation>
    </message>
    <message>
        <source>Zone</source>
        <translation>Zone</translation>
    </message>
    <message>
        <source>Directions of lines</source>
        <translation>Sens des lignes</translation>
    </message>
    <message>
        <source>Ids</source>
        <translation>Identifiants</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Lignes</translation>
    </message>
    <message>
        <source>Not settled: look at these</source>
        <translation>Non réglé : à examiner</translation>
    </message>
    <message>
        <source>Plan</source>
        <translation>Plan</translation>
    </message>
    <message>
        <source>Plan of the lines and their directions, north up</source>
        <translation>Plan des lignes et de leurs sens, le nord en haut</translation>
    </message>
    <message>
        <source>Runs now</source>
        <translation>Va maintenant</translation>
    </message>
    <message>
        <source>Turned round</source>
        <translation>Retournée</translation>
    </message>
    <message>
        <source>North is up. Arrows show the direction that lines have now; a dot is the first vertex, with the number of the line. Solid: as drawn. Dashed: turned round. Dotted: flagged, with a cross where to look. Thin: reference.</source>
        <translation>Le nord est en haut. Les flèches montrent le sens que les lignes ont maintenant ; un point marque le premier sommet, avec le numéro de la ligne. Trait plein : comme dessinée. Tirets : retournée. Pointillé : signalée, avec une croix là où regarder. Trait fin : référence.</translation>
    </message>
    <message>
        <source>All guidelines</source>
        <translation>Toutes les lignes guides</translation>
    </message>
    <message>
        <source>Asked for</source>
        <translation>Demandé</translation>
    </message>
    <message>
        <source>Check of guidelines</source>
        <translation>Contrôle des lignes guides</translation>
    </message>
    <message>
        <source>Guideline</source>
        <translation>Ligne guide</translation>
    </message>
    <message>
        <source>Measured</source>
        <translation>Mesuré</translation>
    </message>
    <message>
        <source>No. {number}: {name}. {result}</source>
        <translation>N° {number} : {name}. {result}</translation>
    </message>
    <message>
        <source>North is up. Solid with arrows: the line. Dashed: the guideline. The cross marks the place that is wrong.</source>
        <translation>Le nord est en haut. Trait plein avec flèches : la ligne. Tirets : la ligne guide. La croix marque l&apos;endroit fautif.</translation>
    </message>
    <message>
        <source>On the wrong side</source>
        <translation>Du mauvais côté</translation>
    </message>
    <message>
        <source>Result</source>
        <translation>Résultat</translation>
    </message>
    <message>
        <source>Sketch of the line and the guideline, north up</source>
        <translation>Croquis de la ligne et de la ligne guide, nord en haut</translation>
    </message>
    <message>
        <source>What is wrong, or cannot be known</source>
        <translation>Ce qui ne va pas, ou ne peut être su</translation>
    </message>
    <message>
        <source>C is cut: the ground lies above the design by so much. F is fill: it lies below. Sides are those of the line, looking from its first to its last vertex.</source>
        <translation>C est un déblai : le terrain est d&apos;autant au-dessus du projet. F est un remblai : il est au-dessous. Les côtés sont ceux de la ligne, vue de son premier à son dernier sommet.</translation>
    </message>
    <message>
        <source>Cut / fill</source>
        <translation>Déblai / remblai</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>East</source>
        <translation>Est</translation>
    </message>
    <message>
        <source>Grade to next</source>
        <translation>Pente au suivant</translation>
    </message>
    <message>
        <source>Ground</source>
        <translation>Terrain</translation>
    </message>
    <message>
        <source>North</source>
        <translation>Nord</translation>
    </message>
    <message>
        <source>Offset and side</source>
        <translation>Décalage et côté</translation>
    </message>
    <message>
        <source>Stake points</source>
        <translation>Piquets</translation>
    </message>
    <message>
        <source>Station</source>
        <translation>Abscisse</translation>
    </message>
    <message>
        <source>Why flagged</source>
        <translation>Pourquoi signalé</translation>
    </message>
    <message>
        <source>Area</source>
        <translation>Aire</translation>
    </message>
    <message>
        <source>Covered</source>
        <translation>Couvert</translation>
    </message>
    <message>
        <source>Covered twice</source>
        <translation>Couvert deux fois</translation>
    </message>
    <message>
        <source>Driven to the</source>
        <translation>Parcouru vers</translation>
    </message>
    <message>
        <source>Left over</source>
        <translation>Laissé</translation>
    </message>
    <message>
        <source>Lengths in {unit}, areas in sq {unit}</source>
        <translation>Longueurs en {unit}, aires en {unit} carrés</translation>
    </message>
    <message>
        <source>North is up. Dashed with arrows: the passes, numbered in the order they are driven. Grey: what they cover. Dark: what is left over.</source>
        <translation>Le nord est en haut. Tirets avec flèches : les passes, numérotées dans l&apos;ordre où elles sont parcourues. Gris : ce qu&apos;elles couvrent. Foncé : ce qui est laissé.</translation>
    </message>
    <message>
        <source>Pass lines</source>
        <translation>Lignes de passe</translation>
    </message>
    <message>
        <source>Passes</source>
        <translation>Passes</translation>
    </message>
    <message>
        <source>Plan of the passes, north up</source>
        <translation>Plan des passes, nord en haut</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
    <message>
        <source>Breaks and drawn lines. North is up.</source>
        <translation>Ruptures et lignes dessinées. Le nord est en haut.</translation>
    </message>
    <message>
        <source>By kind</source>
        <translation>Par genre</translation>
    </message>
    <message>
        <source>Change, mean (least - greatest)</source>
        <translation>Changement, moyen (le plus petit - le plus grand)</translation>
    </message>
    <message>
        <source>Compared with drawn lines</source>
        <translation>Comparaison avec les lignes dessinées</translation>
    </message>
    <message>
        <source>Downhill</source>
        <translation>Vers l&apos;aval</translation>
    </message>
    <message>
        <source>Drawn</source>
        <translation>Dessiné</translation>
    </message>
    <message>
        <source>Drawn line</source>
        <translation>Ligne dessinée</translation>
    </message>
    <message>
        <source>Drawn lines that are no break, or not all along</source>
        <translation>Lignes dessinées qui ne sont pas des ruptures, ou pas partout</translation>
    </message>
    <message>
        <source>Elevation, start - end</source>
        <translation>Altitude, début - fin</translation>
    </message>
    <message>
        <source>Grade</source>
        <translation>Pente</translation>
    </message>
    <message>
        <source>Grade left, right</source>
        <translation>Pente à gauche, à droite</translation>
    </message>
    <message>
        <source>Grades go away from the line, square to it: + rises, - falls. Left and right look from its first to its last vertex.</source>
        <translation>Les pentes s&apos;éloignent de la ligne, perpendiculairement : + monte, - descend. Gauche et droite regardent du premier au dernier sommet.</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Genre</translation>
    </message>
    <message>
        <source>Largest change</source>
        <translation>Plus grand changement</translation>
    </message>
    <message>
        <source>Mean change</source>
        <translation>Changement moyen</translation>
    </message>
    <message>
        <source>No break</source>
        <translation>Sans rupture</translation>
    </message>
    <message>
        <source>North is up. Numbers are those of the longest lines in the table.</source>
        <translation>Le nord est en haut. Les numéros sont ceux des plus longues lignes du tableau.</translation>
    </message>
    <message>
        <source>Not drawn</source>
        <translation>Non dessiné</translation>
    </message>
    <message>
        <source>Off its plane</source>
        <translation>Écart à son plan</translation>
    </message>
    <message>
        <source>Patches of one slope</source>
        <translation>Plages d&apos;une seule pente</translation>
    </message>
    <message>
        <source>Share drawn</source>
        <translation>Part dessinée</translation>
    </message>
    <message>
        <source>Share that is a break</source>
        <translation>Part qui est une rupture</translation>
    </message>
    <message>
        <source>Slope breaks</source>
        <translation>Ruptures de pente</translation>
    </message>
    <message>
        <source>The largest patches</source>
        <translation>Les plus grandes plages</translation>
    </message>
    <message>
        <source>The longest lines</source>
        <translation>Les plus longues lignes</translation>
    </message>
    <message>
        <source>The part in the frame, larger.</source>
        <translation>La partie encadrée, agrandie.</translation>
    </message>
    <message>
        <source>patches: the darker, the steeper</source>
        <translation>plages : plus foncé, plus raide</translation>
    </message>
    <message>
        <source>{more} more are not listed; the layer holds all.</source>
        <translation>{more} autres ne sont pas listées ; la couche les contient toutes.</translation>
    </message>
    <message>
        <source>Check of grades</source>
        <translation>Contrôle des pentes</translation>
    </message>
    <message>
        <source>Checked</source>
        <translation>Contrôlé</translation>
    </message>
    <message>
        <source>Fails</source>
        <translation>Échec</translation>
    </message>
    <message>
        <source>Figures</source>
        <translation>Chiffres</translation>
    </message>
    <message>
        <source>Grades are sizes, without sign. Areas in sq {unit}, in plan.</source>
        <translation>Les pentes sont des grandeurs, sans signe. Aires en {unit} au carré, en plan.</translation>
    </message>
    <message>
        <source>Greatest grade</source>
        <translation>Plus grande pente</translation>
    </message>
    <message>
        <source>Least grade</source>
        <translation>Plus petite pente</translation>
    </message>
    <message>
        <source>Limit</source>
        <translation>Limite</translation>
    </message>
    <message>
        <source>Mean by area</source>
        <translation>Moyenne par l&apos;aire</translation>
    </message>
    <message>
        <source>Near</source>
        <translation>De justesse</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Remarque</translation>
    </message>
    <message>
        <source>Plan of the grades checked, north up</source>
        <translation>Plan des pentes contrôlées, nord en haut</translation>
    </message>
    <message>
        <source>Rule</source>
        <translation>Règle</translation>
    </message>
    <message>
        <source>Rules</source>
        <translation>Règles</translation>
    </message>
    <message>
        <source>Share</source>
        <translation>Part</translation>
    </message>
    <message>
        <source>Source</source>
        <translation>Source</translation>
    </message>
    <message>
        <source>The first {most} of {count} verdicts; the table holds all.</source>
        <translation>Les {most} premiers de {count} verdicts ; le tableau les contient tous.</translation>
    </message>
    <message>
        <source>This compares a surface with numbers. Which rules apply, their exceptions, local codes and tolerances for construction are for licensed practice and the authority in charge to decide; what was built is for a survey to show.</source>
        <translation>Ceci compare une surface à des nombres. Quelles règles s&apos;appliquent, leurs exceptions, les règlements locaux et les tolérances de construction relèvent des professionnels habilités et de l&apos;autorité compétente ; c&apos;est un levé qui montre ce qui a été construit.</translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation>Verdict</translation>
    </message>
    <message>
        <source>Verdicts</source>
        <translation>Verdicts</translation>
    </message>
    <message>
        <source>Worst</source>
        <translation>Au pire</translation>
    </message>
    <message>
        <source>change of grade fails</source>
        <translation>changement de pente non conforme</translation>
    </message>
    <message>
        <source>fails</source>
        <translation>échec</translation>
    </message>
    <message>
        <source>line of travel</source>
        <translation>ligne de parcours</translation>
    </message>
    <message>
        <source>passes, little to spare</source>
        <translation>conforme, peu de marge</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Check of a design</source>
        <translation>Vérification d&apos;un projet</translation>
    </message>
    <message>
        <source>Errors</source>
        <translation>Erreurs</translation>
    </message>
    <message>
        <source>Ground of the design in no zone: {area}.</source>
        <translation>Terrain du projet hors de toute zone : {area}.</translation>
    </message>
    <message>
        <source>It does not drain everywhere: water stands on {area}, {volume} in all, up to {depth} deep (ponds: {count}).</source>
        <translation>Il ne s&apos;égoutte pas partout : l&apos;eau stagne sur {area}, {volume} en tout, jusqu&apos;à {depth} de profondeur (mares : {count}).</translation>
    </message>
    <message>
        <source>North is up. The numbers are those of the table below and of the layers; thin lines are zones.</source>
        <translation>Le nord est en haut. Les numéros sont ceux du tableau ci-dessous et des couches ; les traits fins sont les zones.</translation>
    </message>
    <message>
        <source>Notes</source>
        <translation>Remarques</translation>
    </message>
    <message>
        <source>Notes to read: {count}.</source>
        <translation>Remarques à lire : {count}.</translation>
    </message>
    <message>
        <source>Nothing in “{design}” is wrong for certain. Things to check before work begins: {checks}.</source>
        <translation>Rien n&apos;est faux à coup sûr dans « {design} ». Points à vérifier avant le début des travaux : {checks}.</translation>
    </message>
    <message>
        <source>Nothing was found wrong with “{design}”.</source>
        <translation>Rien d&apos;anormal n&apos;a été trouvé dans « {design} ».</translation>
    </message>
    <message>
        <source>Of these only the first {most} are listed, all are counted: {what}.</source>
        <translation>De ceux-ci, seuls les {most} premiers sont listés, tous sont comptés : {what}.</translation>
    </message>
    <message>
        <source>Plan of the design and of what was found, north up</source>
        <translation>Plan du projet et de ce qui a été trouvé, nord en haut</translation>
    </message>
    <message>
        <source>Plan unit</source>
        <translation>Unité du plan</translation>
    </message>
    <message>
        <source>Ponds that are shallower and were passed over: {count}.</source>
        <translation>Mares moins profondes, passées sous silence : {count}.</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Taille</translation>
    </message>
    <message>
        <source>The surface is compared with nothing else here: heights and places can be wrong in a way that leaves no trace in it.</source>
        <translation>La surface n&apos;est comparée à rien d&apos;autre ici : altitudes et lieux peuvent être faux sans y laisser de trace.</translation>
    </message>
    <message>
        <source>To check</source>
        <translation>À vérifier</translation>
    </message>
    <message>
        <source>Unit of heights</source>
        <translation>Unité des altitudes</translation>
    </message>
    <message>
        <source>Water runs off over all borders of the surface, those of holes too; it seeps away nowhere, and no pipe or inlet takes it.</source>
        <translation>L&apos;eau s&apos;écoule par tous les bords de la surface, ceux des trous aussi ; elle ne s&apos;infiltre nulle part, et ni conduite ni avaloir ne la prend.</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Quoi</translation>
    </message>
    <message>
        <source>What to do</source>
        <translation>Que faire</translation>
    </message>
    <message>
        <source>What was found</source>
        <translation>Ce qui a été trouvé</translation>
    </message>
    <message>
        <source>What was looked at</source>
        <translation>Ce qui a été examiné</translation>
    </message>
    <message>
        <source>error</source>
        <translation>erreur</translation>
    </message>
    <message>
        <source>none given</source>
        <translation>aucune donnée</translation>
    </message>
    <message>
        <source>note</source>
        <translation>remarque</translation>
    </message>
    <message>
        <source>to check</source>
        <translation>à vérifier</translation>
    </message>
    <message>
        <source>water</source>
        <translation>eau</translation>
    </message>
    <message>
        <source>{area}; points: {points:,}, faces: {faces:,}</source>
        <translation>{area} ; points : {points:,}, faces : {faces:,}</translation>
    </message>
    <message>
        <source>“{design}” is not fit to work from as it is. Errors: {errors}; things to check: {checks}.</source>
        <translation>« {design} » ne convient pas au travail en l&apos;état. Erreurs : {errors} ; points à vérifier : {checks}.</translation>
    </message>
    <message>
        <source>North is up. A cross marks the worst place of a verdict that fails or nearly does, with the number of the zone and the grade there.</source>
        <translation>Le nord est en haut. Une croix marque le pire endroit d&apos;un verdict non conforme ou de justesse conforme, avec le numéro de la zone et la pente à cet endroit.</translation>
    </message>
    <message>
        <source>Areas by station</source>
        <translation>Aires par abscisse</translation>
    </message>
    <message>
        <source>Cross sections</source>
        <translation>Profils en travers</translation>
    </message>
    <message>
        <source>Cut less fill, m³</source>
        <translation>Déblai moins remblai, m³</translation>
    </message>
    <message>
        <source>Cut less fill, yd³</source>
        <translation>Déblai moins remblai, yd³</translation>
    </message>
    <message>
        <source>Cut to the next, {unit}</source>
        <translation>Déblai jusqu&apos;au suivant, {unit}</translation>
    </message>
    <message>
        <source>Cut, m³</source>
        <translation>Déblai, m³</translation>
    </message>
    <message>
        <source>Cut, yd³</source>
        <translation>Déblai, yd³</translation>
    </message>
    <message>
        <source>Cut, {unit}</source>
        <translation>Déblai, {unit}</translation>
    </message>
    <message>
        <source>Elevation</source>
        <translation>Altitude</translation>
    </message>
    <message>
        <source>Fill to the next, {unit}</source>
        <translation>Remblai jusqu&apos;au suivant, {unit}</translation>
    </message>
    <message>
        <source>Fill, m³</source>
        <translation>Remblai, m³</translation>
    </message>
    <message>
        <source>Fill, yd³</source>
        <translation>Remblai, yd³</translation>
    </message>
    <message>
        <source>Fill, {unit}</source>
        <translation>Remblai, {unit}</translation>
    </message>
    <message>
        <source>Guidelines on the sections</source>
        <translation>Lignes guides sur les profils</translation>
    </message>
    <message>
        <source>Heights are drawn {times} times as large as widths. Sections look along the line, left of it on the left; the dash-dot line at 0 is the line. Cut is shaded ochre, fill violet.</source>
        <translation>Les hauteurs sont dessinées {times} fois plus grandes que les largeurs. Les profils regardent le long de la ligne, sa gauche à gauche ; le trait mixte à 0 est la ligne. Le déblai est teinté d&apos;ocre, le remblai de violet.</translation>
    </message>
    <message>
        <source>How sections are made</source>
        <translation>Comment les profils sont faits</translation>
    </message>
    <message>
        <source>Method</source>
        <translation>Méthode</translation>
    </message>
    <message>
        <source>Sections</source>
        <translation>Profils</translation>
    </message>
    <message>
        <source>Volumes</source>
        <translation>Volumes</translation>
    </message>
    <message>
        <source>Width with both, {unit}</source>
        <translation>Largeur avec les deux, {unit}</translation>
    </message>
    <message>
        <source>dash-dot violet line</source>
        <translation>trait mixte violet</translation>
    </message>
    <message>
        <source>dashed orange line</source>
        <translation>tirets orange</translation>
    </message>
    <message>
        <source>dotted teal line</source>
        <translation>pointillé bleu-vert</translation>
    </message>
    <message>
        <source>short brown dashes</source>
        <translation>tirets courts bruns</translation>
    </message>
    <message>
        <source>solid slate line</source>
        <translation>trait plein ardoise</translation>
    </message>
    <message>
        <source>thin ochre line</source>
        <translation>trait fin ocre</translation>
    </message>
    <message>
        <source>“{path}” cannot be written.</source>
        <translation>« {path} » ne peut pas être écrit.</translation>
    </message>
    <message>
        <source>{what}: the first {most} of {count}; the layers hold all.</source>
        <translation>{what} : les {most} premiers sur {count} ; les couches les contiennent tous.</translation>
    </message>
    <message>
        <source>Plan of the surface, north up</source>
        <translation>Plan de la surface, nord en haut</translation>
    </message>
    <message>
        <source>Surface of points and breaklines</source>
        <translation>Surface de points et de lignes de rupture</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Valeur</translation>
    </message>
    <message>
        <source>The changes leave out lines beside walls, curb faces and steps.</source>
        <translation>Les changements laissent de côté les lignes au bord de murs, de faces de bordure et de marches.</translation>
    </message>
    <message>
        <source>North is up. Dark: the breaklines, dotted where they were left out. Dashed: where the surface ends. Pale: its faces. Crosses: the places to be looked at, by their numbers.</source>
        <translation>Le nord est en haut. Foncé : les lignes de rupture, en pointillé là où elles ont été écartées. Tireté : où la surface s&apos;arrête. Pâle : ses faces. Croix : les endroits à regarder, par leur numéro.</translation>
    </message>
    <message>
        <source>Reports</source>
        <translation>Rapports</translation>
    </message>
    <message>
        <source>“{path}” cannot be read: {why}.</source>
        <translation>« {path} » ne peut pas être lu : {why}.</translation>
    </message>
    <message>
        <source>“{path}” is no report of Undercourse: choose the HTML files that its algorithms wrote.</source>
        <translation>« {path} » n&apos;est pas un rapport d&apos;Undercourse : choisissez les fichiers HTML que ses algorithmes ont écrits.</translation>
    </message>
    <message>
        <source>Stations, length</source>
        <translation>Abscisses, longueur</translation>
    </message>
</context>
<context>
    <name>SectionPlot</name>
    <message>
        <source> (1 in = {feet} ft)</source>
        <translation> (1 in = {feet} ft)</translation>
    </message>
    <message>
        <source>, heights 1:{ratio}</source>
        <translation>, hauteurs 1:{ratio}</translation>
    </message>
    <message>
        <source>, heights the same.</source>
        <translation>, hauteurs de même.</translation>
    </message>
    <message>
        <source>: drawn {times} times as high as wide.</source>
        <translation> : dessinées {times} fois plus hautes que larges.</translation>
    </message>
    <message>
        <source>Elev. ({unit})</source>
        <translation>Alt. ({unit})</translation>
    </message>
    <message>
        <source>Offset ({unit}): – left, + right</source>
        <translation>Décalage ({unit}) : – à gauche, + à droite</translation>
    </message>
    <message>
        <source>Page {number} of {count}</source>
        <translation>Page {number} sur {count}</translation>
    </message>
    <message>
        <source>Widths 1:{ratio}</source>
        <translation>Largeurs 1:{ratio}</translation>
    </message>
    <message>
        <source>cut</source>
        <translation>déblai</translation>
    </message>
    <message>
        <source>fill</source>
        <translation>remblai</translation>
    </message>
</context>
<context>
    <name>SlopeBreaks</name>
    <message>
        <source>Angle between the faces, degrees</source>
        <translation>Angle entre les facettes, degrés</translation>
    </message>
    <message>
        <source>Breaks whose slope changes by less are left out. In percent of grade: 2 % beside 7 % in the same direction is a change of 5, +2 % beside -2 % a change of 4. In degrees where the change is measured as an angle.</source>
        <translation>Les ruptures dont la pente change de moins sont omises. En pour cent de pente : 2 % à côté de 7 % dans le même sens est un changement de 5, +2 % à côté de -2 % un changement de 4. En degrés quand le changement se mesure en angle.</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>Difference in grade, percent</source>
        <translation>Différence de pente, pour cent</translation>
    </message>
    <message>
        <source>Direction of the lines: at a top and a toe the uphill side is on the left and the lower side on the right. Ridges and valleys run downhill; those that are level or closed have their lower side on the right, and where both sides are alike they start at their western end or run counter-clockwise.</source>
        <translation>Sens des lignes : à un haut et à un pied de talus, l&apos;amont est à gauche et l&apos;aval à droite. Les crêtes et les noues descendent ; celles qui sont de niveau ou fermées ont leur côté bas à droite, et si les deux côtés sont pareils elles partent de leur extrémité ouest ou tournent dans le sens inverse des aiguilles d&apos;une montre.</translation>
    </message>
    <message>
        <source>Finds the lines along which the slope of a design changes: crowns, flowlines, tops and toes of slope, with the grade on both sides.</source>
        <translation>Trouve les lignes où change la pente d&apos;un projet : faîtes, fils d&apos;eau, hauts et pieds de talus, avec la pente des deux côtés.</translation>
    </message>
    <message>
        <source>Grades of the sides are in percent, square to the line and going away from it: + rises, - falls. Left and right look from the first to the last vertex. Means are weighted by length.</source>
        <translation>Les pentes des côtés sont en pour cent, d&apos;équerre à la ligne et en s&apos;en éloignant : + monte, - descend. Gauche et droite s&apos;entendent en regardant du premier au dernier sommet. Les moyennes sont pondérées par la longueur.</translation>
    </message>
    <message>
        <source>It ends at an edge that cannot be measured, because more than two faces meet there, faces lie over each other or a face has no area: the line may go on.</source>
        <translation>Elle finit à une arête qui ne peut pas être mesurée, car plus de deux facettes s&apos;y rencontrent, des facettes se recouvrent ou une facette est sans aire : la ligne peut continuer.</translation>
    </message>
    <message>
        <source>Kinds</source>
        <translation>Genres</translation>
    </message>
    <message>
        <source>Kinds: a ridge falls away on both sides (a crown), a valley rises on both sides (a flowline), a top of slope falls away on one side only, a toe of slope rises on one side only. A side within 0.1 % of level neither rises nor falls, so the rim of a level platform is a top and the rim of a level floor a toe.</source>
        <translation>Genres : une crête descend des deux côtés (un faîte), une noue monte des deux côtés (un fil d&apos;eau), un haut de talus ne descend que d&apos;un côté, un pied de talus ne monte que d&apos;un côté. Un côté à moins de 0,1 % de l&apos;horizontale ne monte ni ne descend : le bord d&apos;une plate-forme horizontale est donc un haut, et celui d&apos;un fond horizontal un pied.</translation>
    </message>
    <message>
        <source>Length of all lines (CRS unit)</source>
        <translation>Longueur de toutes les lignes (unité du SCR)</translation>
    </message>
    <message>
        <source>Lines shorter than this in plan are left out, after edges have been joined. With a unit, or in the unit of the CRS: 5 ft, 1.5 m. 0 keeps all.</source>
        <translation>Les lignes plus courtes en plan sont omises, après la jonction des arêtes. Avec une unité, ou dans l&apos;unité du SCR : 5 ft, 1.5 m. 0 garde tout.</translation>
    </message>
    <message>
        <source>No slope break was found: lower the smallest slope change or the shortest line.</source>
        <translation>Aucune rupture de pente trouvée : abaissez le plus petit changement de pente ou la ligne la plus courte.</translation>
    </message>
    <message>
        <source>Number of edges that cannot be measured</source>
        <translation>Nombre d&apos;arêtes qui ne peuvent pas être mesurées</translation>
    </message>
    <message>
        <source>Number of flagged lines</source>
        <translation>Nombre de lignes signalées</translation>
    </message>
    <message>
        <source>Number of lines</source>
        <translation>Nombre de lignes</translation>
    </message>
    <message>
        <source>Ridge, crown</source>
        <translation>Crête, faîte</translation>
    </message>
    <message>
        <source>Shortest line</source>
        <translation>Ligne la plus courte</translation>
    </message>
    <message>
        <source>Slope breaks</source>
        <translation>Ruptures de pente</translation>
    </message>
    <message>
        <source>Slope change measured as</source>
        <translation>Changement de pente mesuré en</translation>
    </message>
    <message>
        <source>Smallest slope change (percent)</source>
        <translation>Plus petit changement de pente (pour cent)</translation>
    </message>
    <message>
        <source>Toe of slope</source>
        <translation>Pied de talus</translation>
    </message>
    <message>
        <source>Top of slope</source>
        <translation>Haut de talus</translation>
    </message>
    <message>
        <source>Valley, flowline</source>
        <translation>Noue, fil d&apos;eau</translation>
    </message>
    <message>
        <source>What the smallest slope change is given in. The angle is the one between the normals of the two faces, as mesh programs measure it.</source>
        <translation>Ce en quoi est donné le plus petit changement de pente. L&apos;angle est celui des normales des deux facettes, comme le mesurent les programmes de maillage.</translation>
    </message>
    <message>
        <source>break,breakline,crease,grade break,ridge,crown,valley,flowline,top of slope,toe of slope,kerb,curb,TIN,mesh</source>
        <translation>rupture,ligne caractéristique,pli,changement de pente,crête,faîte,noue,fil d&apos;eau,haut de talus,pied de talus,bordure,TIN,maillage</translation>
    </message>
    <message>
        <source>{count} edges cannot be measured, the first at {x:.3f}, {y:.3f}: more than two faces meet there, faces lie over each other, or a face has no area; breaks may be missing there.</source>
        <translation>{count} arêtes ne peuvent pas être mesurées, la première en {x:.3f}, {y:.3f} : plus de deux facettes s&apos;y rencontrent, des facettes se recouvrent, ou une facette est sans aire ; des ruptures peuvent y manquer.</translation>
    </message>
    <message>
        <source>{kind}: length</source>
        <translation>{kind} : longueur</translation>
    </message>
    <message>
        <source>{kind}: lines</source>
        <translation>{kind} : lignes</translation>
    </message>
    <message>
        <source>{kind}: {count} lines, {length}</source>
        <translation>{kind} : {count} lignes, {length}</translation>
    </message>
    <message>
        <source>{part} of {whole} lie beside a face steeper than {limit:.0f} %: a wall, a kerb face or a step, whose grade says little.</source>
        <translation>{part} sur {whole} longent une facette plus raide que {limit:.0f} % : un mur, une face de bordure ou une marche, dont la pente dit peu.</translation>
    </message>
    <message>
        <source>{count} lines are flagged: read their fields “flag” and “why”.</source>
        <translation>{count} lignes sont signalées : lisez leurs champs « flag » et « why ».</translation>
    </message>
    <message>
        <source>0 compares face with face, exactly. Greater: patches of about this width and more are compared, so that noise and fillets do not tear lines apart.</source>
        <translation>0 compare face à face, exactement. Plus grand : des plages d&apos;environ cette largeur et plus sont comparées, pour que le bruit et les congés ne déchirent pas les lignes.</translation>
    </message>
    <message>
        <source>A line that reaches the smallest slope change somewhere goes on while its change is at least this. Blank: the smallest slope change itself.</source>
        <translation>Une ligne qui atteint quelque part le plus petit changement de pente continue tant que le sien est d&apos;au moins cette valeur. Vide : le plus petit changement de pente lui-même.</translation>
    </message>
    <message>
        <source>Areas between breaks that one plane fits, with the fields: patch, grade (percent), fall_bearing (downhill, clockwise from grid north), area, residual (root mean square height from the plane), faces. They cover the design without gaps, but for upright faces. Without a width over which slopes are taken they are the flat parts of the design.</source>
        <translation>Plages entre les ruptures auxquelles un seul plan convient, avec les champs : patch, grade (pour cent), fall_bearing (vers l&apos;aval, sens horaire depuis le nord du quadrillage), area, residual (écart quadratique moyen d&apos;altitude au plan), faces. Elles couvrent le projet sans lacune, sauf les faces verticales. Sans largeur de prise des pentes, ce sont les parties planes du projet.</translation>
    </message>
    <message>
        <source>Ends of lines that run on towards each other, both convex or both concave, are joined over gaps up to this.</source>
        <translation>Des bouts de lignes qui se prolongent l&apos;un vers l&apos;autre, tous deux convexes ou tous deux concaves, sont joints à travers des vides jusqu&apos;à cette longueur.</translation>
    </message>
    <message>
        <source>Largest move of a vertex (CRS unit)</source>
        <translation>Plus grand déplacement d&apos;un sommet (unité du SCR)</translation>
    </message>
    <message>
        <source>Longest gap to bridge</source>
        <translation>Plus long vide à franchir</translation>
    </message>
    <message>
        <source>Number of patches</source>
        <translation>Nombre de plages</translation>
    </message>
    <message>
        <source>Patches of one slope</source>
        <translation>Plages d&apos;une seule pente</translation>
    </message>
    <message>
        <source>Slope change that continues a line (percent)</source>
        <translation>Changement de pente qui continue une ligne (pour cent)</translation>
    </message>
    <message>
        <source>The slope change is measured at every edge between two faces, square to the edge: it is the grade on one side less the grade on the other, walking straight across (the algebraic difference in grade). Edges are joined to lines that go on through a junction along the straightest way (a turn of up to 30 degrees), and that are split where their kind changes.</source>
        <translation>Le changement de pente est mesuré à chaque arête entre deux faces, d&apos;équerre à l&apos;arête : c&apos;est la pente d&apos;un côté moins celle de l&apos;autre, en traversant tout droit (la différence algébrique des pentes). Les arêtes sont jointes en lignes qui traversent une jonction par le chemin le plus droit (un angle de 30 degrés au plus), et qui sont coupées là où leur genre change.</translation>
    </message>
    <message>
        <source>Width over which slopes are taken</source>
        <translation>Largeur de prise des pentes</translation>
    </message>
    <message>
        <source>Zig-zags were straightened: no vertex moved more than {move}.</source>
        <translation>Des zigzags ont été redressés : aucun sommet n&apos;a bougé de plus de {move}.</translation>
    </message>
    <message>
        <source>Pixel by pixel a raster gives many short breaks: take slopes over a width of about three pixels.</source>
        <translation>Pixel à pixel, un raster donne beaucoup de ruptures courtes : prenez les pentes sur une largeur d&apos;environ trois pixels.</translation>
    </message>
    <message>
        <source>The surface whose breaks are wanted: a mesh layer, a polygon layer with heights (triangles or planar faces), or a raster of up to 4 million pixels, which is triangulated between the centres of its pixels. Its CRS must be projected.</source>
        <translation>La surface dont on veut les ruptures : une couche de maillage, une couche de polygones avec altitudes (triangles ou faces planes), ou un raster de 4 millions de pixels au plus, triangulé entre les centres de ses pixels. Son SCR doit être projeté.</translation>
    </message>
    <message>
        <source>A break counts as drawn where a drawn line runs beside it within {distance} and {angle:g} degrees, and no other break lies clearly nearer to that line.</source>
        <translation>Une rupture compte comme dessinée là où une ligne dessinée court à côté à {distance} et {angle:g} degrés près, et où aucune autre rupture n&apos;est nettement plus proche de cette ligne.</translation>
    </message>
    <message>
        <source>A break is drawn where a drawn line runs beside it within this distance, nearly parallel. Where two breaks lie that near, a drawn line stands for the one it is clearly nearer to (half as far or less). Breaks found over a width lie up to half that width off.</source>
        <translation>Une rupture est dessinée là où une ligne dessinée court à côté à moins de cette distance, presque parallèle. Là où deux ruptures sont aussi proches, une ligne dessinée vaut pour celle dont elle est nettement plus proche (moitié moins loin ou moins). Les ruptures trouvées sur une largeur s&apos;écartent jusqu&apos;à la moitié de cette largeur.</translation>
    </message>
    <message>
        <source>A page with the thresholds, the lines by kind, a plan, the longest lines, those that are flagged, and how drawn lines compare.</source>
        <translation>Une page avec les seuils, les lignes par genre, un plan, les plus longues lignes, celles qui sont signalées, et la comparaison avec les lignes dessinées.</translation>
    </message>
    <message>
        <source>Breaklines already drawn</source>
        <translation>Lignes de rupture déjà dessinées</translation>
    </message>
    <message>
        <source>Breaks and drawn lines compared</source>
        <translation>Ruptures et lignes dessinées comparées</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Change that continues a line</source>
        <translation>Changement qui continue une ligne</translation>
    </message>
    <message>
        <source>Drawn lines match up to an angle of (degrees)</source>
        <translation>Les lignes dessinées concordent jusqu&apos;à un angle de (degrés)</translation>
    </message>
    <message>
        <source>Drawn lines match within</source>
        <translation>Les lignes dessinées concordent à moins de</translation>
    </message>
    <message>
        <source>Kinds of breaks to keep. The lines of one kind are the same whatever other kinds are kept. Outer edge: the outline of the design and of its holes as closed lines, with the surface and its grade on their left.</source>
        <translation>Genres de ruptures à garder. Les lignes d&apos;un genre sont les mêmes quels que soient les autres genres gardés. Bord extérieur : le contour du projet et de ses trous en lignes fermées, avec la surface et sa pente à leur gauche.</translation>
    </message>
    <message>
        <source>Length of breaks not drawn (CRS unit)</source>
        <translation>Longueur des ruptures non dessinées (unité du SCR)</translation>
    </message>
    <message>
        <source>Length of breaks that are drawn (CRS unit)</source>
        <translation>Longueur des ruptures dessinées (unité du SCR)</translation>
    </message>
    <message>
        <source>Length of drawn lines that are no break (CRS unit)</source>
        <translation>Longueur des lignes dessinées qui ne sont pas des ruptures (unité du SCR)</translation>
    </message>
    <message>
        <source>Lines that run more askew do not match. Directions are taken over twice the distance, so that small jogs do not count; what way lines are drawn has no part in it.</source>
        <translation>Les lignes plus de biais ne concordent pas. Les directions sont prises sur deux fois la distance, pour que les petits décrochements ne comptent pas ; le sens du dessin n&apos;y est pour rien.</translation>
    </message>
    <message>
        <source>Lines to compare the breaks with: which breaks they explain, which breaks are not drawn, and which drawn lines are no break. Their heights have no part in it.</source>
        <translation>Lignes auxquelles comparer les ruptures : quelles ruptures elles expliquent, quelles ruptures ne sont pas dessinées, et quelles lignes dessinées ne sont pas des ruptures. Leurs altitudes n&apos;y sont pour rien.</translation>
    </message>
    <message>
        <source>Of {breaks} of breaks {explained} ({share:.1f} %) are drawn and {missing} are not; of {drawn} drawn {bare} ({bare_share:.1f} %) are no break.</source>
        <translation>Sur {breaks} de ruptures, {explained} ({share:.1f} %) sont dessinés et {missing} ne le sont pas ; sur {drawn} dessinés, {bare} ({bare_share:.1f} %) ne sont pas des ruptures.</translation>
    </message>
    <message>
        <source>Outer edge</source>
        <translation>Bord extérieur</translation>
    </message>
    <message>
        <source>Plan of breaks and drawn lines, north up</source>
        <translation>Plan des ruptures et des lignes dessinées, nord en haut</translation>
    </message>
    <message>
        <source>Plan of the slope breaks, north up</source>
        <translation>Plan des ruptures de pente, nord en haut</translation>
    </message>
    <message>
        <source>Plan unit</source>
        <translation>Unité du plan</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Smallest slope change</source>
        <translation>Plus petit changement de pente</translation>
    </message>
    <message>
        <source>Unit of heights</source>
        <translation>Unité des altitudes</translation>
    </message>
    <message>
        <source>a break that is drawn</source>
        <translation>une rupture dessinée</translation>
    </message>
    <message>
        <source>a break that is not drawn</source>
        <translation>une rupture non dessinée</translation>
    </message>
    <message>
        <source>all are kept</source>
        <translation>toutes sont gardées</translation>
    </message>
    <message>
        <source>drawn, but no break</source>
        <translation>dessiné, mais sans rupture</translation>
    </message>
    <message>
        <source>it must be greater than 0.</source>
        <translation>elle doit être supérieure à 0.</translation>
    </message>
    <message>
        <source>none</source>
        <translation>aucune</translation>
    </message>
    <message>
        <source>none: face by face</source>
        <translation>aucune : face par face</translation>
    </message>
    <message>
        <source>{angle:g} degrees</source>
        <translation>{angle:g} degrés</translation>
    </message>
    <message>
        <source>{area:,.1f} sq {unit}</source>
        <translation>{area:,.1f} {unit}²</translation>
    </message>
    <message>
        <source>{count} edges cannot be measured, the first at {x:.3f}, {y:.3f}: breaks may be missing there.</source>
        <translation>{count} arêtes ne peuvent pas être mesurées, la première en {x:.3f}, {y:.3f} : des ruptures peuvent y manquer.</translation>
    </message>
    <message>
        <source>{count} lines are flagged, see below.</source>
        <translation>{count} lignes sont signalées, voir plus bas.</translation>
    </message>
    <message>
        <source>{count} patches cover {area} of the design ({share:.1f} %). How far off its plane a patch is, is the root mean square of the heights.</source>
        <translation>{count} plages couvrent {area} du projet ({share:.1f} %). L&apos;écart d&apos;une plage à son plan est la moyenne quadratique des altitudes.</translation>
    </message>
    <message>
        <source>{count} slope breaks, {length} in all, where the slope changes by {change} or more.</source>
        <translation>{count} ruptures de pente, {length} en tout, où la pente change de {change} ou plus.</translation>
    </message>
    <message>
        <source>{distance} and {angle:g} degrees</source>
        <translation>{distance} et {angle:g} degrés</translation>
    </message>
    <message>
        <source>A face steeper than 1000 % (a wall, a curb face, a step of a depth surface) has a line along its foot and one along its top, each of which names the other and the height between them. Both are flagged, because their grade towards the wall says little.</source>
        <translation>Une face plus raide que 1000 % (un mur, une face de bordure, une marche d&apos;une surface de profondeur) a une ligne à son pied et une en haut ; chacune nomme l&apos;autre et la hauteur entre elles. Toutes deux sont signalées, parce que leur pente vers le mur dit peu.</translation>
    </message>
    <message>
        <source>It is the foot: line {line} is the top, {height} higher.</source>
        <translation>C&apos;est le pied : la ligne {line} est le haut, {height} plus haut.</translation>
    </message>
    <message>
        <source>It is the top: line {line} is the foot, {height} lower.</source>
        <translation>C&apos;est le haut : la ligne {line} est le pied, {height} plus bas.</translation>
    </message>
    <message>
        <source>Lines with heights and the fields: line (its number); kind; change, change_min, change_max (size of the slope change, percent: mean, smallest, largest); grade_left, grade_right and their least and greatest values (percent, + rises away from the line); angle (degrees, mean); length (in plan, CRS unit); z_start, z_end; fall (z_start less z_end, + falls along the line); confidence (percent of the length whose change is beyond doubt, from how uneven the patches are), bridged (length of gaps); drawn (percent of the length that drawn lines explain); wall_pair and wall_height (beside a near-vertical face, at its foot or top: number of the line at its other end, and its mean height); flag and why for lines to look at. Figures beside an upright face are empty, as are the change and the right side of an outer edge.</source>
        <translation>Lignes avec altitudes et les champs : line (leur numéro) ; kind (genre) ; change, change_min, change_max (grandeur du changement de pente, pour cent : moyenne, plus petite, plus grande) ; grade_left, grade_right et leurs valeurs extrêmes (pour cent, + monte en s&apos;éloignant de la ligne) ; angle (degrés, moyen) ; length (en plan, unité du SCR) ; z_start, z_end ; fall (z_start moins z_end, + descend le long de la ligne) ; confidence (pour cent de la longueur dont le changement est hors de doute, d&apos;après l&apos;inégalité des plages), bridged (longueur des lacunes) ; drawn (pour cent de la longueur que des lignes dessinées expliquent) ; wall_pair et wall_height (à côté d&apos;une face presque verticale, à son pied ou en haut : numéro de la ligne à son autre bout, et sa hauteur moyenne) ; flag et why pour les lignes à regarder. Les valeurs à côté d&apos;une face verticale sont vides, comme le changement et le côté droit d&apos;un bord extérieur.</translation>
    </message>
    <message>
        <source>Made where drawn lines are given: the lines cut where the answer changes, with the fields: state (both: a break that is drawn; missing: a break that is not drawn; no_break: drawn, but no break), line and kind (number and kind of the break), drawn_id and drawn_name (the drawn line), drawn_share (percent of that drawn line that is a break), from_dist and to_dist (distances along the line), length.</source>
        <translation>Faite quand des lignes dessinées sont données : les lignes coupées là où la réponse change, avec les champs : state (both : une rupture dessinée ; missing : une rupture non dessinée ; no_break : dessiné, mais sans rupture), line et kind (numéro et genre de la rupture), drawn_id et drawn_name (la ligne dessinée), drawn_share (pour cent de cette ligne dessinée qui est une rupture), from_dist et to_dist (distances le long de la ligne), length.</translation>
    </message>
    <message>
        <source>wall</source>
        <translation>mur</translation>
    </message>
    <message>
        <source>wall of {height}</source>
        <translation>mur de {height}</translation>
    </message>
    <message>
        <source>With a width over which slopes are taken, faces are first joined to patches that one plane fits nearly as well as two: noise of the heights is averaged out, a break spread over a narrow fillet is found once, at its middle, and a cone or a curve that only bends gives no break. Two to three times the size of the triangles is a good width for surveyed ground; narrower features can be lost, but not a step (the face of a curb, say) that is higher than twice the smallest change times the width: 0.10 m for 2 % over 2.5 m. Zig-zags are straightened, no farther than that width.</source>
        <translation>Avec une largeur de prise des pentes, les faces sont d&apos;abord réunies en plages auxquelles un plan convient presque aussi bien que deux : le bruit des altitudes se compense, une rupture étalée sur un congé étroit est trouvée une fois, en son milieu, et un cône ou une courbe qui ne fait que s&apos;incurver ne donne pas de rupture. Deux à trois fois la taille des triangles est une bonne largeur pour un terrain levé ; les détails plus étroits peuvent se perdre, mais pas une marche (la face d&apos;une bordure, par exemple) plus haute que deux fois le plus petit changement multiplié par la largeur : 0,10 m pour 2 % sur 2,5 m. Les zigzags sont redressés, pas plus loin que cette largeur.</translation>
    </message>
    <message>
        <source>For large surfaces with a little noise: before faces are compared, the slope of each is averaged so many times with those of its neighbours that differ from it by less than about the smallest slope change. Five passes take out 5 mm of noise on triangles of a metre in a fraction of the time that a width takes. Breaks smaller than twice the smallest slope change may fade, so ask for about half of what you look for. 0: none, exact.</source>
        <translation>Pour de grandes surfaces un peu bruitées : avant de comparer les faces, la pente de chacune est moyennée autant de fois avec celles de ses voisines qui en diffèrent de moins, environ, que le plus petit changement de pente. Cinq passes enlèvent 5 mm de bruit sur des triangles d&apos;un mètre, en une fraction du temps que demande une largeur. Les ruptures plus petites que deux fois le plus petit changement peuvent s&apos;effacer : demandez à peu près la moitié de ce que vous cherchez. 0 : aucune, exact.</translation>
    </message>
    <message>
        <source>Smoothing passes, face by face</source>
        <translation>Passes de lissage, face par face</translation>
    </message>
    <message>
        <source>slopes are taken over a width already: leave one of the two at 0.</source>
        <translation>les pentes sont déjà prises sur une largeur : laissez l&apos;un des deux à 0.</translation>
    </message>
</context>
<context>
    <name>StakePoints</name>
    <message>
        <source>A point is flagged where another part of the line is nearer than its own place (inside a tight bend), and where a height is missing.</source>
        <translation>Un point est signalé là où une autre partie de la ligne est plus proche que sa propre place (dans un virage serré), et là où une altitude manque.</translation>
    </message>
    <message>
        <source>Also at</source>
        <translation>Aussi à</translation>
    </message>
    <message>
        <source>Another part of the line is nearer than the offset: the point stands inside a tight bend.</source>
        <translation>Une autre partie de la ligne est plus proche que le décalage : le point est dans un virage serré.</translation>
    </message>
    <message>
        <source>Break of grade (percent)</source>
        <translation>Changement de pente (pour cent)</translation>
    </message>
    <message>
        <source>Breaks of grade</source>
        <translation>Changements de pente</translation>
    </message>
    <message>
        <source>C</source>
        <translation>C</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Cut (C) means that the ground lies above the design there and has to come off; fill (F) that it lies below. Both are measured plumb.</source>
        <translation>Déblai (C) veut dire que le terrain est là au-dessus du projet et doit être enlevé ; remblai (F) qu&apos;il est au-dessous. Les deux se mesurent à la verticale.</translation>
    </message>
    <message>
        <source>Depth</source>
        <translation>Profondeur</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>Design heights from</source>
        <translation>Altitudes du projet d&apos;après</translation>
    </message>
    <message>
        <source>Distances in plan, several at once, without a minus sign. The side is that of the line, looking from its first to its last vertex.</source>
        <translation>Distances en plan, plusieurs à la fois, sans signe moins. Le côté est celui de la ligne, vue de son premier à son dernier sommet.</translation>
    </message>
    <message>
        <source>Ends of arcs</source>
        <translation>Bouts d&apos;arcs</translation>
    </message>
    <message>
        <source>F</source>
        <translation>F</translation>
    </message>
    <message>
        <source>Field with names</source>
        <translation>Champ des noms</translation>
    </message>
    <message>
        <source>From the line: every point of a station gives the height of the line there, as a stake set back from the line does. From the surface: the height under the point itself.</source>
        <translation>De la ligne : chaque point d&apos;une abscisse donne l&apos;altitude de la ligne à cet endroit, comme un piquet en retrait. De la surface : l&apos;altitude sous le point lui-même.</translation>
    </message>
    <message>
        <source>Ground</source>
        <translation>Terrain</translation>
    </message>
    <message>
        <source>Heights from the surface need a surface: choose a layer for Surface.</source>
        <translation>Des altitudes de la surface demandent une surface : choisissez une couche pour Surface.</translation>
    </message>
    <message>
        <source>Interval</source>
        <translation>Intervalle</translation>
    </message>
    <message>
        <source>Largest cut (unit of heights)</source>
        <translation>Plus grand déblai (unité des altitudes)</translation>
    </message>
    <message>
        <source>Largest cut {cut}, largest fill {fill}: cut is where the ground lies above the design.</source>
        <translation>Plus grand déblai {cut}, plus grand remblai {fill} : il y a déblai là où le terrain est au-dessus du projet.</translation>
    </message>
    <message>
        <source>Largest fill (unit of heights)</source>
        <translation>Plus grand remblai (unité des altitudes)</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Lignes</translation>
    </message>
    <message>
        <source>Lines to set out, in a projected CRS.</source>
        <translation>Lignes à piqueter, dans un SCR projeté.</translation>
    </message>
    <message>
        <source>Listed stations</source>
        <translation>Abscisses listées</translation>
    </message>
    <message>
        <source>Lowers the design heights: positive is below the line or the surface, a minus sign raises.</source>
        <translation>Abaisse les altitudes du projet : positif est au-dessous de la ligne ou de la surface, un signe moins relève.</translation>
    </message>
    <message>
        <source>More places along the line. Ends of arcs are those of true arcs (circular strings); a break of grade is a vertex where the grade along the line changes by the amount below.</source>
        <translation>D&apos;autres places le long de la ligne. Les bouts d&apos;arcs sont ceux de vrais arcs (chaînes circulaires) ; un changement de pente est un sommet où la pente le long de la ligne change de la valeur ci-dessous.</translation>
    </message>
    <message>
        <source>Number of flagged points</source>
        <translation>Nombre de points signalés</translation>
    </message>
    <message>
        <source>Number of points</source>
        <translation>Nombre de points</translation>
    </message>
    <message>
        <source>Offsets are written without a sign, to the right and to the left of the line, looking from its first to its last vertex. Run “Orient lines” first where lines run in different directions. At a corner an offset point stands the offset away from both sides.</source>
        <translation>Les décalages s&apos;écrivent sans signe, à droite et à gauche de la ligne, vue de son premier à son dernier sommet. Exécutez d&apos;abord « Orienter des lignes » si les lignes vont en sens différents. À un angle, un point décalé est au décalage des deux côtés.</translation>
    </message>
    <message>
        <source>Offsets to the left</source>
        <translation>Décalages à gauche</translation>
    </message>
    <message>
        <source>Offsets to the right</source>
        <translation>Décalages à droite</translation>
    </message>
    <message>
        <source>On the line</source>
        <translation>Sur la ligne</translation>
    </message>
    <message>
        <source>Page with a table for each line, made to be printed.</source>
        <translation>Page avec un tableau par ligne, faite pour être imprimée.</translation>
    </message>
    <message>
        <source>Plan unit</source>
        <translation>Unité en plan</translation>
    </message>
    <message>
        <source>Points at the design height with the fields: number, source_id, line; station (text), station_value; reason (start, end, interval, vertex, arc, break, listed); side, compass_side, signed_offset (+ right, - left), offset (in two styles); east, north; design, ground; cut_fill (ground less design: + cut, - fill), mark (C or F with feet and tenths, or metres); grade_next (percent, + rises) and next_distance; flag, why.</source>
        <translation>Points à l&apos;altitude du projet avec les champs : number, source_id, line ; station (texte), station_value ; reason (start, end, interval, vertex, arc, break, listed) ; side, compass_side, signed_offset (+ droite, - gauche), offset (en deux écritures) ; east, north ; design, ground ; cut_fill (terrain moins projet : + déblai, - remblai), mark (C ou F avec pieds et dixièmes, ou mètres) ; grade_next (pour cent, + monte) et next_distance ; flag, why.</translation>
    </message>
    <message>
        <source>Points stand at round stations (multiples of the interval counted in stations), at both ends, and where asked at vertices, ends of arcs, breaks of grade and listed stations. Places that coincide are one point.</source>
        <translation>Les points sont aux abscisses rondes (multiples de l&apos;intervalle, comptés en abscisses), aux deux bouts et, sur demande, aux sommets, bouts d&apos;arcs, changements de pente et abscisses listées. Des places qui coïncident font un seul point.</translation>
    </message>
    <message>
        <source>Points stand at the stations that are multiples of this, and at both ends. 0 or blank: at the ends only.</source>
        <translation>Les points sont aux abscisses multiples de cette valeur, et aux deux bouts. 0 ou vide : aux bouts seulement.</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Set out the line itself.</source>
        <translation>Piqueter la ligne elle-même.</translation>
    </message>
    <message>
        <source>Sets out points along lines and at offsets from them, with station, side, design height, ground and cut or fill.</source>
        <translation>Implante des points le long de lignes et décalés d&apos;elles, avec abscisse, côté, altitude du projet, terrain et déblai ou remblai.</translation>
    </message>
    <message>
        <source>Smallest change of the grade along the line that counts.</source>
        <translation>Plus petit changement de la pente le long de la ligne qui compte.</translation>
    </message>
    <message>
        <source>Stake points</source>
        <translation>Piquets</translation>
    </message>
    <message>
        <source>Stations that get a point wherever a line has them, such as 1+12.50, 2+00 in feet or 0+112.500 in metres.</source>
        <translation>Abscisses qui reçoivent un point partout où une ligne les a, comme 1+12.50, 2+00 en pieds ou 0+112.500 en mètres.</translation>
    </message>
    <message>
        <source>Surface</source>
        <translation>Surface</translation>
    </message>
    <message>
        <source>Table</source>
        <translation>Tableau</translation>
    </message>
    <message>
        <source>The design. It must be in the CRS of the lines.</source>
        <translation>Le projet. Il doit être dans le SCR des lignes.</translation>
    </message>
    <message>
        <source>The ground as it is, for cut and fill. It must be in the CRS of the lines.</source>
        <translation>Le terrain tel qu&apos;il est, pour déblai et remblai. Il doit être dans le SCR des lignes.</translation>
    </message>
    <message>
        <source>The line</source>
        <translation>La ligne</translation>
    </message>
    <message>
        <source>The points have no design heights: the lines have none, so take them from a surface.</source>
        <translation>Les points n&apos;ont pas d&apos;altitude du projet : les lignes n&apos;en ont pas, prenez-les donc d&apos;une surface.</translation>
    </message>
    <message>
        <source>The same as a table; columns of numbers name their unit.</source>
        <translation>La même chose en tableau ; les colonnes de nombres nomment leur unité.</translation>
    </message>
    <message>
        <source>The surface</source>
        <translation>La surface</translation>
    </message>
    <message>
        <source>There is no design height here.</source>
        <translation>Il n&apos;y a pas d&apos;altitude du projet ici.</translation>
    </message>
    <message>
        <source>There is no ground here.</source>
        <translation>Il n&apos;y a pas de terrain ici.</translation>
    </message>
    <message>
        <source>There is nothing to set out: write an offset or keep the points on the line.</source>
        <translation>Il n&apos;y a rien à piqueter : écrivez un décalage ou gardez les points sur la ligne.</translation>
    </message>
    <message>
        <source>Unit of heights</source>
        <translation>Unité des altitudes</translation>
    </message>
    <message>
        <source>Vertices</source>
        <translation>Sommets</translation>
    </message>
    <message>
        <source>it must not be negative.</source>
        <translation>il ne doit pas être négatif.</translation>
    </message>
    <message>
        <source>left</source>
        <translation>gauche</translation>
    </message>
    <message>
        <source>offsets are written without a minus sign and above 0, since each side has a parameter of its own.</source>
        <translation>les décalages s&apos;écrivent sans signe moins et au-dessus de 0, puisque chaque côté a son propre paramètre.</translation>
    </message>
    <message>
        <source>on grade</source>
        <translation>à niveau</translation>
    </message>
    <message>
        <source>on the line</source>
        <translation>sur la ligne</translation>
    </message>
    <message>
        <source>right</source>
        <translation>droite</translation>
    </message>
    <message>
        <source>stake,stake-out,setting out,station,offset,cut,fill,grade stake,survey,points along a line</source>
        <translation>piquet,piquetage,implantation,abscisse,décalage,déblai,remblai,topographie,points le long d&apos;une ligne</translation>
    </message>
    <message>
        <source>{count} points are flagged: read their fields “flag” and “why”.</source>
        <translation>{count} points sont signalés : lisez leurs champs « flag » et « why ».</translation>
    </message>
    <message>
        <source>{count} points on {lines} lines.</source>
        <translation>{count} points sur {lines} lignes.</translation>
    </message>
    <message>
        <source>there would be more than {most:,} points; check the interval and its unit.</source>
        <translation>il y aurait plus de {most:,} points ; vérifiez l&apos;intervalle et son unité.</translation>
    </message>
    <message>
        <source>{count} points are flagged: the last column says why.</source>
        <translation>{count} points sont signalés : la dernière colonne dit pourquoi.</translation>
    </message>
</context>
<context>
    <name>StationOffset</name>
    <message>
        <source>All lines within that distance</source>
        <translation>Toutes les lignes à cette distance</translation>
    </message>
    <message>
        <source>Another perpendicular of the line, at station {station}, is about as near: the station is not certain.</source>
        <translation>Une autre perpendiculaire de la ligne, à l&apos;abscisse {station}, est à peu près aussi proche : l&apos;abscisse n&apos;est pas certaine.</translation>
    </message>
    <message>
        <source>Farthest distance</source>
        <translation>Distance maximale</translation>
    </message>
    <message>
        <source>Field with names of lines</source>
        <translation>Champ des noms de lignes</translation>
    </message>
    <message>
        <source>Field with names of points</source>
        <translation>Champ des noms de points</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Lignes</translation>
    </message>
    <message>
        <source>Lines that the points are seen from, in a projected CRS.</source>
        <translation>Lignes d&apos;où les points sont vus, dans un SCR projeté.</translation>
    </message>
    <message>
        <source>No line is near enough.</source>
        <translation>Aucune ligne n&apos;est assez proche.</translation>
    </message>
    <message>
        <source>Number of flagged rows</source>
        <translation>Nombre de lignes de table signalées</translation>
    </message>
    <message>
        <source>Number of rows</source>
        <translation>Nombre de lignes de table</translation>
    </message>
    <message>
        <source>One row for each line near enough, not for the nearest alone.</source>
        <translation>Une ligne de table pour chaque ligne assez proche, pas pour la plus proche seule.</translation>
    </message>
    <message>
        <source>Points</source>
        <translation>Points</translation>
    </message>
    <message>
        <source>Points with no line this near get no station and are flagged. Blank: any distance.</source>
        <translation>Les points sans ligne à cette distance n&apos;ont pas d&apos;abscisse et sont signalés. Vide : toute distance.</translation>
    </message>
    <message>
        <source>Points with stations</source>
        <translation>Points avec abscisses</translation>
    </message>
    <message>
        <source>Points, with or without heights, in the CRS of the lines.</source>
        <translation>Points, avec ou sans altitudes, dans le SCR des lignes.</translation>
    </message>
    <message>
        <source>Station and offset</source>
        <translation>Abscisse et décalage</translation>
    </message>
    <message>
        <source>Surface</source>
        <translation>Surface</translation>
    </message>
    <message>
        <source>Surface to compare the heights of the points with.</source>
        <translation>Surface à laquelle comparer les altitudes des points.</translation>
    </message>
    <message>
        <source>Table</source>
        <translation>Tableau</translation>
    </message>
    <message>
        <source>Tells for points the station on a line, the signed offset and the side, and how far they lie above the line and a surface.</source>
        <translation>Dit pour des points l&apos;abscisse sur une ligne, le décalage signé et le côté, et de combien ils sont au-dessus de la ligne et d&apos;une surface.</translation>
    </message>
    <message>
        <source>The offset is measured square to the line at its nearest place: + is right, - is left, looking from the first to the last vertex of the line, as LandXML has it.</source>
        <translation>Le décalage se mesure d&apos;équerre à la ligne à son endroit le plus proche : + est à droite, - à gauche, vu du premier au dernier sommet de la ligne, comme dans LandXML.</translation>
    </message>
    <message>
        <source>The point lies beyond an end of the line, {away} from it, where it has no side.</source>
        <translation>Le point est au-delà d&apos;un bout de la ligne, à {away} d&apos;elle, où il n&apos;a pas de côté.</translation>
    </message>
    <message>
        <source>The points with the fields: point_id, point, source_id, line; station (text), station_value; side, compass_side, signed_offset (+ right, - left), offset (in two styles); east, north, z; line_z and above_line (+ where the point lies above the line); surface_z and above_surface; flag, why.</source>
        <translation>Les points avec les champs : point_id, point, source_id, line ; station (texte), station_value ; side, compass_side, signed_offset (+ droite, - gauche), offset (en deux écritures) ; east, north, z ; line_z et above_line (+ où le point est au-dessus de la ligne) ; surface_z et above_surface ; flag, why.</translation>
    </message>
    <message>
        <source>The same as a table; columns of numbers name their unit.</source>
        <translation>La même chose en tableau ; les colonnes de nombres nomment leur unité.</translation>
    </message>
    <message>
        <source>it must be greater than 0.</source>
        <translation>elle doit dépasser 0.</translation>
    </message>
    <message>
        <source>station,offset,chainage,survey,points,alignment,as-built,side,perpendicular</source>
        <translation>abscisse,décalage,PK,topographie,points,axe,récolement,côté,perpendiculaire</translation>
    </message>
    <message>
        <source>{count} rows are flagged: read their fields “flag” and “why”.</source>
        <translation>{count} lignes de table sont signalées : lisez leurs champs « flag » et « why ».</translation>
    </message>
    <message>
        <source>A point is flagged where its station is doubtful: another perpendicular of the same line is about as near (inside a bend, near the centre of an arc), or the point lies beyond an open end, where it has no side or is not square to the line.</source>
        <translation>Un point est signalé là où son abscisse est douteuse : une autre perpendiculaire de la même ligne est à peu près aussi proche (à l&apos;intérieur d&apos;une courbe, près du centre d&apos;un arc), ou le point se trouve au-delà d&apos;une extrémité ouverte, où il n&apos;a pas de côté ou n&apos;est pas d&apos;équerre à la ligne.</translation>
    </message>
    <message>
        <source>The point lies {past} past an end of the line: the offset is its distance from that end, not square to the line.</source>
        <translation>Le point se trouve {past} au-delà d&apos;une extrémité de la ligne : le décalage est sa distance à cette extrémité, pas d&apos;équerre à la ligne.</translation>
    </message>
</context>
<context>
    <name>Styles</name>
    <message>
        <source>Ridge</source>
        <translation>Crête</translation>
    </message>
    <message>
        <source>Toe of slope</source>
        <translation>Pied de talus</translation>
    </message>
    <message>
        <source>Top of slope</source>
        <translation>Haut de talus</translation>
    </message>
    <message>
        <source>Valley</source>
        <translation>Noue</translation>
    </message>
    <message>
        <source>Batter</source>
        <translation>Talus</translation>
    </message>
    <message>
        <source>Bottom</source>
        <translation>Fond</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Projet</translation>
    </message>
    <message>
        <source>Step (upright side)</source>
        <translation>Marche (côté vertical)</translation>
    </message>
    <message>
        <source>Extension</source>
        <translation>Prolongement</translation>
    </message>
    <message>
        <source>As drawn</source>
        <translation>Comme dessinée</translation>
    </message>
    <message>
        <source>Flagged</source>
        <translation>Signalée</translation>
    </message>
    <message>
        <source>Turned round</source>
        <translation>Retournée</translation>
    </message>
    <message>
        <source>Cannot be judged</source>
        <translation>Ne peut être jugé</translation>
    </message>
    <message>
        <source>Fail</source>
        <translation>Échec</translation>
    </message>
    <message>
        <source>Pass</source>
        <translation>Conforme</translation>
    </message>
    <message>
        <source>Left of the line</source>
        <translation>À gauche de la ligne</translation>
    </message>
    <message>
        <source>On the line</source>
        <translation>Sur la ligne</translation>
    </message>
    <message>
        <source>Right of the line</source>
        <translation>À droite de la ligne</translation>
    </message>
    <message>
        <source>Cut</source>
        <translation>Déblai</translation>
    </message>
    <message>
        <source>Fill</source>
        <translation>Remblai</translation>
    </message>
    <message>
        <source>Level</source>
        <translation>De niveau</translation>
    </message>
    <message>
        <source>A break that is drawn</source>
        <translation>Une rupture dessinée</translation>
    </message>
    <message>
        <source>A break that is not drawn</source>
        <translation>Une rupture non dessinée</translation>
    </message>
    <message>
        <source>Drawn, but no break</source>
        <translation>Dessiné, mais sans rupture</translation>
    </message>
    <message>
        <source>Outer edge</source>
        <translation>Bord extérieur</translation>
    </message>
    <message>
        <source>Fails, too narrow to count</source>
        <translation>Non conforme, trop étroit pour compter</translation>
    </message>
    <message>
        <source>Passes, with little to spare</source>
        <translation>Conforme, avec peu de marge</translation>
    </message>
    <message>
        <source>Error</source>
        <translation>Erreur</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Remarque</translation>
    </message>
    <message>
        <source>To check</source>
        <translation>À vérifier</translation>
    </message>
    <message>
        <source>Water</source>
        <translation>Eau</translation>
    </message>
    <message>
        <source>Border of a zone</source>
        <translation>Limite d&apos;une zone</translation>
    </message>
    <message>
        <source>Guideline</source>
        <translation>Ligne guide</translation>
    </message>
    <message>
        <source>Section</source>
        <translation>Profil</translation>
    </message>
    <message>
        <source>Not checked</source>
        <translation>Non vérifié</translation>
    </message>
    <message>
        <source>Strip, not judged</source>
        <translation>Bande, non jugée</translation>
    </message>
    <message>
        <source>Too deep</source>
        <translation>Trop profond</translation>
    </message>
    <message>
        <source>Too shallow</source>
        <translation>Pas assez profond</translation>
    </message>
    <message>
        <source>Within tolerance</source>
        <translation>Dans la tolérance</translation>
    </message>
    <message>
        <source>Over {low:g} %</source>
        <translation>Plus de {low:g} %</translation>
    </message>
    <message>
        <source>{low:g} to {high:g} %</source>
        <translation>{low:g} à {high:g} %</translation>
    </message>
</context>
<context>
    <name>TinToRaster</name>
    <message>
        <source>A pixel has a height when its centre lies on the surface, its border included; all others, also those over holes, have no data. Heights are worked out in double precision from the plane of the face that holds the centre and rounded once to the type of the raster. Where faces lie over one another, the highest counts.</source>
        <translation>Un pixel a une altitude quand son centre est sur la surface, bord compris ; tous les autres, aussi ceux des trous, sont sans données. Les altitudes sont calculées en double précision d&apos;après le plan de la facette qui contient le centre, et arrondies une seule fois au type du raster. Là où des facettes se recouvrent, la plus haute compte.</translation>
    </message>
    <message>
        <source>A pixel smooths over everything smaller than itself: an upright side or a curb shows as a jump between two pixels. Where this matters to the work, keep the TIN.</source>
        <translation>Un pixel efface tout ce qui est plus petit que lui : un côté vertical ou une bordure devient un saut entre deux pixels. Là où cela compte pour les travaux, gardez le TIN.</translation>
    </message>
    <message>
        <source>A raster whose grid is taken over exactly: the same pixels, in the same place. Only its grid counts, not its values. It must have the CRS of the surface and must not be rotated.</source>
        <translation>Un raster dont la grille est reprise exactement : les mêmes pixels, au même endroit. Seule sa grille compte, pas ses valeurs. Il doit avoir le SCR de la surface et ne pas être tourné.</translation>
    </message>
    <message>
        <source>A tiled GeoTIFF in the CRS of the surface, without data where there is no surface. Its metadata say the unit and how a pixel gets its height.</source>
        <translation>Un GeoTIFF tuilé dans le SCR de la surface, sans données là où il n&apos;y a pas de surface. Ses métadonnées disent l&apos;unité et comment un pixel reçoit son altitude.</translation>
    </message>
    <message>
        <source>Extent</source>
        <translation>Emprise</translation>
    </message>
    <message>
        <source>Give the pixel size, or a template raster.</source>
        <translation>Donnez la taille des pixels, ou un raster modèle.</translation>
    </message>
    <message>
        <source>Heights of a TIN at pixel centres</source>
        <translation>Altitudes d&apos;un TIN aux centres des pixels</translation>
    </message>
    <message>
        <source>Heights, {name}</source>
        <translation>Altitudes, {name}</translation>
    </message>
    <message>
        <source>Highest height</source>
        <translation>Altitude la plus haute</translation>
    </message>
    <message>
        <source>How many digits a height has. float32 keeps 0.06 mm at heights below 1,000 and is what most programs expect.</source>
        <translation>Nombre de chiffres d&apos;une altitude. float32 garde 0,06 mm pour des altitudes sous 1 000 et c&apos;est ce que la plupart des logiciels attendent.</translation>
    </message>
    <message>
        <source>Lays a TIN on a raster: each pixel gets the exact height of the surface at the centre of the pixel.</source>
        <translation>Pose un TIN sur un raster : chaque pixel reçoit l&apos;altitude exacte de la surface au centre du pixel.</translation>
    </message>
    <message>
        <source>Lowest height</source>
        <translation>Altitude la plus basse</translation>
    </message>
    <message>
        <source>No pixel has its centre on the surface: take smaller pixels, or check the extent.</source>
        <translation>Aucun pixel n&apos;a son centre sur la surface : prenez des pixels plus petits, ou vérifiez l&apos;emprise.</translation>
    </message>
    <message>
        <source>Number of columns</source>
        <translation>Nombre de colonnes</translation>
    </message>
    <message>
        <source>Number of rows</source>
        <translation>Nombre de lignes</translation>
    </message>
    <message>
        <source>Pixel size</source>
        <translation>Taille des pixels</translation>
    </message>
    <message>
        <source>Pixel size and template are both given: leave one of them blank, since the template has its own pixels.</source>
        <translation>La taille des pixels et le modèle sont donnés tous les deux : laissez l&apos;un des deux vide, puisque le modèle a ses propres pixels.</translation>
    </message>
    <message>
        <source>Pixels with a height</source>
        <translation>Pixels avec une altitude</translation>
    </message>
    <message>
        <source>Plan area of these pixels</source>
        <translation>Aire en plan de ces pixels</translation>
    </message>
    <message>
        <source>Raster of heights</source>
        <translation>Raster d&apos;altitudes</translation>
    </message>
    <message>
        <source>Side of the square pixels, with a unit or in the unit of the CRS: 0.5, 0.25 m, 6 in. Leave it blank where a template gives the pixels.</source>
        <translation>Côté des pixels carrés, avec une unité ou dans l&apos;unité du SCR : 0.5, 0.25 m, 6 in. À laisser vide quand un modèle donne les pixels.</translation>
    </message>
    <message>
        <source>Surface</source>
        <translation>Surface</translation>
    </message>
    <message>
        <source>TIN to raster</source>
        <translation>TIN en raster</translation>
    </message>
    <message>
        <source>Template raster</source>
        <translation>Raster modèle</translation>
    </message>
    <message>
        <source>The pixel size is kept exactly as given. The borders of the raster are multiples of the pixel size, so that rasters of one pixel size fit each other; or the grid of a template raster is taken over, to the last digit. The raster is made strip by strip, so that its size does not matter.</source>
        <translation>La taille des pixels est gardée exactement. Les bords du raster sont des multiples de la taille des pixels, pour que des rasters de même taille s&apos;ajustent entre eux ; ou bien la grille d&apos;un raster modèle est reprise, au dernier chiffre près. Le raster est fait bande par bande, si bien que sa taille n&apos;importe pas.</translation>
    </message>
    <message>
        <source>The pixel size must be greater than zero.</source>
        <translation>La taille des pixels doit être supérieure à zéro.</translation>
    </message>
    <message>
        <source>The raster would have {columns} x {rows} pixels: give a larger pixel size or a smaller extent.</source>
        <translation>Le raster aurait {columns} x {rows} pixels : donnez des pixels plus grands ou une emprise plus petite.</translation>
    </message>
    <message>
        <source>The raster would not touch the surface, which lies between x {xmin:.2f} and {xmax:.2f}, y {ymin:.2f} and {ymax:.2f}: check extent and template.</source>
        <translation>Le raster ne toucherait pas la surface, qui se trouve entre x {xmin:.2f} et {xmax:.2f}, y {ymin:.2f} et {ymax:.2f} : vérifiez l&apos;emprise et le modèle.</translation>
    </message>
    <message>
        <source>The surface: a mesh layer, or a polygon layer with heights (triangles or planar faces). Its CRS must be projected.</source>
        <translation>La surface : une couche de maillage, ou une couche de polygones avec altitudes (triangles ou faces planes). Son SCR doit être projeté.</translation>
    </message>
    <message>
        <source>The template “{name}” is rotated: choose a raster whose rows run along x.</source>
        <translation>Le modèle « {name} » est tourné : choisissez un raster dont les lignes suivent x.</translation>
    </message>
    <message>
        <source>Type of the heights</source>
        <translation>Type des altitudes</translation>
    </message>
    <message>
        <source>What the raster covers at least. It is widened to whole pixels: to multiples of the pixel size, or to the pixels of the template carried on. Left blank, it is the extent of the template, or else that of the surface.</source>
        <translation>Ce que le raster couvre au moins. L&apos;emprise est élargie à des pixels entiers : aux multiples de la taille des pixels, ou aux pixels du modèle continués. Vide : l&apos;emprise du modèle, ou sinon celle de la surface.</translation>
    </message>
    <message>
        <source>float32 (7 digits)</source>
        <translation>float32 (7 chiffres)</translation>
    </message>
    <message>
        <source>float64 (15 digits, twice the size)</source>
        <translation>float64 (15 chiffres, taille double)</translation>
    </message>
    <message>
        <source>rasterise,rasterize,grid,DEM,DTM,mesh,GeoTIFF,elevation,heights,convert,pixel,template</source>
        <translation>rastériser,grille,MNT,MNE,maillage,GeoTIFF,altitude,convertir,pixel,modèle</translation>
    </message>
    <message>
        <source>{columns} x {rows} pixels of {pixel}, {count} of them with a height</source>
        <translation>{columns} x {rows} pixels de {pixel}, dont {count} avec une altitude</translation>
    </message>
    <message>
        <source>“{path}” is the template itself: give the result another name.</source>
        <translation>« {path} » est le modèle lui-même : donnez un autre nom au résultat.</translation>
    </message>
    <message>
        <source>“{path}”: the result is a GeoTIFF, give it a name in .tif.</source>
        <translation>« {path} » : le résultat est un GeoTIFF, donnez-lui un nom en .tif.</translation>
    </message>
</context>
<context>
    <name>VolumesBetween</name>
    <message>
        <source>Area of cut, square plan units</source>
        <translation>Aire de déblai, unités de plan au carré</translation>
    </message>
    <message>
        <source>Area of fill, square plan units</source>
        <translation>Aire de remblai, unités de plan au carré</translation>
    </message>
    <message>
        <source>Area that both surfaces cover, square plan units</source>
        <translation>Aire couverte par les deux surfaces, unités de plan au carré</translation>
    </message>
    <message>
        <source>Area without difference, square plan units</source>
        <translation>Aire sans écart, unités de plan au carré</translation>
    </message>
    <message>
        <source>Both surfaces are TINs: every pair of faces over one another was clipped and integrated in closed form, the zones cut along their borders. The result is exact but for the rounding of coordinates.</source>
        <translation>Les deux surfaces sont des TIN : chaque paire de faces superposées a été découpée et intégrée exactement, les zones étant coupées le long de leurs limites. Le résultat est exact, à l&apos;arrondi des coordonnées près.</translation>
    </message>
    <message>
        <source>CRS</source>
        <translation>SCR</translation>
    </message>
    <message>
        <source>Compacted volume of one bank volume</source>
        <translation>Volume compacté d&apos;un volume en place</translation>
    </message>
    <message>
        <source>Cut and fill areas</source>
        <translation>Aires de déblai et de remblai</translation>
    </message>
    <message>
        <source>Cut and fill, {upper} to {lower}</source>
        <translation>Déblai et remblai, de {upper} à {lower}</translation>
    </message>
    <message>
        <source>Cut is where UPPER lies above LOWER: soil that goes when the ground is brought from UPPER down to LOWER. So UPPER is the ground as it is, LOWER the surface to be made. Fill is where UPPER lies below. Exchanged, cut and fill change places and nothing else.</source>
        <translation>Le déblai est là où UPPER est au-dessus de LOWER : de la terre qui part quand on amène le terrain de UPPER à LOWER. UPPER est donc le terrain tel qu&apos;il est, LOWER la surface à faire. Le remblai est là où UPPER est au-dessous. Si on échange les deux, déblai et remblai changent de place et rien d&apos;autre.</translation>
    </message>
    <message>
        <source>Cut less fill, cubic plan units</source>
        <translation>Déblai moins remblai, unités de plan au cube</translation>
    </message>
    <message>
        <source>Cut, cubic plan units</source>
        <translation>Déblai, unités de plan au cube</translation>
    </message>
    <message>
        <source>Cut, m³</source>
        <translation>Déblai, m³</translation>
    </message>
    <message>
        <source>Cut, yd³</source>
        <translation>Déblai, yd³</translation>
    </message>
    <message>
        <source>Fill, cubic plan units</source>
        <translation>Remblai, unités de plan au cube</translation>
    </message>
    <message>
        <source>Fill, m³</source>
        <translation>Remblai, m³</translation>
    </message>
    <message>
        <source>Fill, yd³</source>
        <translation>Remblai, yd³</translation>
    </message>
    <message>
        <source>Height of the bands of difference into which the cells are divided, e.g. 0.5 ft. Left blank, cells are cut, fill and level.</source>
        <translation>Hauteur des tranches d&apos;écart qui divisent les aires, par exemple 0.5 ft. Vide : déblai, remblai et niveau.</translation>
    </message>
    <message>
        <source>How much of a bank volume is left when it is placed and compacted, e.g. 0.9: what is filled is a compacted volume. 1 leaves it as it is.</source>
        <translation>Ce qui reste d&apos;un volume en place une fois mis en oeuvre et compacté, par exemple 0.9 : ce qui est remblayé est un volume compacté. 1 ne change rien.</translation>
    </message>
    <message>
        <source>How much soil grows when it is dug, e.g. 1.25: what is cut is a bank volume, in place. 1 leaves it as it is.</source>
        <translation>De combien la terre foisonne quand on la creuse, par exemple 1.25 : ce qui est déblayé est un volume en place. 1 ne change rien.</translation>
    </message>
    <message>
        <source>Interval of bands</source>
        <translation>Intervalle des tranches</translation>
    </message>
    <message>
        <source>Loose volume of one bank volume</source>
        <translation>Volume foisonné d&apos;un volume en place</translation>
    </message>
    <message>
        <source>Lower surface (LOWER)</source>
        <translation>Surface du bas (LOWER)</translation>
    </message>
    <message>
        <source>Lower surface (to be made)</source>
        <translation>Surface du bas (à faire)</translation>
    </message>
    <message>
        <source>Measures cut and fill between two surfaces, by zone and in total, exactly for TINs, with polygons of where each is.</source>
        <translation>Mesure déblai et remblai entre deux surfaces, par zone et au total, exactement pour des TIN, avec les polygones où ils se trouvent.</translation>
    </message>
    <message>
        <source>One row for each zone, the total, and what lies outside the zones: areas in plan units, no_data_share in percent, least, mean and greatest difference, cut, fill and net in yd3 and m3, loose and bank volumes by the factors, flag and why.</source>
        <translation>Une ligne par zone, le total, et ce qui est hors des zones : aires en unités de plan, no_data_share en pour cent, écart minimal, moyen et maximal, déblai, remblai et différence en yd3 et en m3, volumes foisonnés et en place selon les coefficients, flag et why.</translation>
    </message>
    <message>
        <source>Page that says what cut and fill are with the names of the layers, tables in both systems of units, and a plan.</source>
        <translation>Page qui dit ce que sont déblai et remblai avec le nom des couches, des tableaux dans les deux systèmes d&apos;unités, et un plan.</translation>
    </message>
    <message>
        <source>Plan unit</source>
        <translation>Unité de plan</translation>
    </message>
    <message>
        <source>Polygons by which figures are given. Left blank, all ground that both surfaces cover is measured.</source>
        <translation>Polygones par lesquels les chiffres sont donnés. Vide : tout le terrain couvert par les deux surfaces est mesuré.</translation>
    </message>
    <message>
        <source>Polygons, one for each zone and kind (cut, fill, level) or band: zone_id, zone, kind, diff_from and diff_to (upper less lower, in height units; of a band its limits), area, volume (plan units; negative where fill is), volume_yd3, volume_m3.</source>
        <translation>Polygones, un par zone et par sorte (cut, fill, level) ou tranche : zone_id, zone, kind, diff_from et diff_to (haut moins bas, en unités de hauteur ; pour une tranche, ses bornes), area, volume (unités de plan ; négatif pour le remblai), volume_yd3, volume_m3.</translation>
    </message>
    <message>
        <source>Prisms over pixels {pixel} wide: each pixel with data in both surfaces counts with its whole area and the difference at its centre, for the zone that holds its centre. A TIN has its exact height there.</source>
        <translation>Prismes sur des pixels de {pixel} : chaque pixel renseigné dans les deux surfaces compte avec toute son aire et l&apos;écart en son centre, pour la zone qui contient ce centre. Un TIN y a sa hauteur exacte.</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Rapport</translation>
    </message>
    <message>
        <source>Share of the zones without data, percent</source>
        <translation>Part des zones sans données, pour cent</translation>
    </message>
    <message>
        <source>Table by zone</source>
        <translation>Tableau par zone</translation>
    </message>
    <message>
        <source>The pixels of the two rasters do not fit: the coarser one was read between its centres, bilinear.</source>
        <translation>Les pixels des deux rasters ne coïncident pas : le plus grossier a été lu entre ses centres, en bilinéaire.</translation>
    </message>
    <message>
        <source>The surface after the work: fill is where it lies above the upper one. In the same CRS and height unit.</source>
        <translation>La surface après les travaux : le remblai est là où elle est au-dessus de celle du haut. Dans le même SCR et la même unité de hauteur.</translation>
    </message>
    <message>
        <source>The surface before the work: cut is where it lies above the lower surface. A mesh, a polygon layer with heights, or a raster, in a projected CRS.</source>
        <translation>La surface avant les travaux : le déblai est là où elle est au-dessus de celle du bas. Un maillage, une couche de polygones avec hauteurs ou un raster, dans un SCR projeté.</translation>
    </message>
    <message>
        <source>Two TINs: every pair of faces over one another is integrated in closed form, zones cut along their borders; nothing is sampled. With a raster: each pixel with data is a prism over its whole area; it belongs to the zone that holds its centre, a TIN has its exact height at that centre, and a second raster whose pixels do not fit is read between its centres (bilinear). Of two rasters the finer one gives the pixels.</source>
        <translation>Deux TIN : chaque paire de faces superposées est intégrée exactement, les zones étant coupées le long de leurs limites ; rien n&apos;est échantillonné. Avec un raster : chaque pixel renseigné est un prisme sur toute son aire ; il appartient à la zone qui contient son centre, un TIN a sa hauteur exacte en ce centre, et un second raster dont les pixels ne coïncident pas est lu entre ses centres (bilinéaire). De deux rasters, le plus fin donne les pixels.</translation>
    </message>
    <message>
        <source>Unit of heights</source>
        <translation>Unité des hauteurs</translation>
    </message>
    <message>
        <source>Upper surface (UPPER)</source>
        <translation>Surface du haut (UPPER)</translation>
    </message>
    <message>
        <source>Upper surface (the ground)</source>
        <translation>Surface du haut (le terrain)</translation>
    </message>
    <message>
        <source>Volumes between surfaces</source>
        <translation>Volumes entre surfaces</translation>
    </message>
    <message>
        <source>Volumes, {upper} to {lower}</source>
        <translation>Volumes, de {upper} à {lower}</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
    <message>
        <source>Zones must not overlap, unless a priority settles it. The total is that of the zones; what lies outside them is a row of its own. What has no data in one of the surfaces is in no volume, and its share is told.</source>
        <translation>Les zones ne doivent pas se recouvrir, sauf si une priorité tranche. Le total est celui des zones ; ce qui est hors d&apos;elles a sa propre ligne. Ce qui n&apos;a pas de données dans l&apos;une des surfaces n&apos;est dans aucun volume, et sa part est dite.</translation>
    </message>
    <message>
        <source>it must be greater than 0, or blank for cut and fill.</source>
        <translation>il doit être supérieur à 0, ou vide pour déblai et remblai.</translation>
    </message>
    <message>
        <source>volume,cut,fill,earthwork,quantities,difference,isopach,bank,loose,compacted,TIN,raster,zones</source>
        <translation>volume,déblai,remblai,terrassement,métré,écart,isopaque,en place,foisonné,compacté,TIN,raster,zones</translation>
    </message>
    <message>
        <source>{share:.1f} % lacks one of the surfaces and is not in the figures.</source>
        <translation>{share:.1f} % n&apos;a pas l&apos;une des surfaces et n&apos;est pas dans les chiffres.</translation>
    </message>
    <message>
        <source>“{upper}” and “{lower}” share no ground with data in what was measured: check their place and their zones.</source>
        <translation>« {upper} » et « {lower} » n&apos;ont aucun terrain renseigné en commun dans ce qui a été mesuré : vérifiez leur position et leurs zones.</translation>
    </message>
    <message>
        <source>A TIN of the difference, the higher or the lower of two TINs over the ground they share, exact: it bends where one of them bends and where they cross. Only for two TINs; zones do not matter.</source>
        <translation>Un TIN de l&apos;écart, de la plus haute ou de la plus basse de deux TIN sur le terrain qu&apos;ils partagent, exact : il plie là où l&apos;un d&apos;eux plie et là où ils se croisent. Seulement pour deux TIN ; les zones n&apos;y changent rien.</translation>
    </message>
    <message>
        <source>Higher of {upper} and {lower}</source>
        <translation>La plus haute de {upper} et {lower}</translation>
    </message>
    <message>
        <source>Lower of {upper} and {lower}</source>
        <translation>La plus basse de {upper} et {lower}</translation>
    </message>
    <message>
        <source>Surface made of both</source>
        <translation>Surface tirée des deux</translation>
    </message>
    <message>
        <source>The difference, upper less lower</source>
        <translation>L&apos;écart, haut moins bas</translation>
    </message>
    <message>
        <source>The higher of both</source>
        <translation>La plus haute des deux</translation>
    </message>
    <message>
        <source>The lower of both</source>
        <translation>La plus basse des deux</translation>
    </message>
    <message>
        <source>What the heights of the surface made of both are.</source>
        <translation>Ce que sont les hauteurs de la surface tirée des deux.</translation>
    </message>
    <message>
        <source>What the surface between shows</source>
        <translation>Ce que montre la surface tirée des deux</translation>
    </message>
    <message>
        <source>{upper} less {lower}</source>
        <translation>{upper} moins {lower}</translation>
    </message>
    <message>
        <source>“{name}” is a raster, and a surface is made of two TINs only: leave “{label}” blank.</source>
        <translation>« {name} » est un raster, et une surface n&apos;est tirée que de deux TIN : laissez « {label} » vide.</translation>
    </message>
</context>
<context>
    <name>VolumesReport</name>
    <message>
        <source>Areas by zone</source>
        <translation>Aires par zone</translation>
    </message>
    <message>
        <source>Bank for the fill</source>
        <translation>En place pour le remblai</translation>
    </message>
    <message>
        <source>Bank, loose and compacted, m³</source>
        <translation>En place, foisonné et compacté, m³</translation>
    </message>
    <message>
        <source>Bank, loose and compacted, yd³</source>
        <translation>En place, foisonné et compacté, yd³</translation>
    </message>
    <message>
        <source>Both surfaces</source>
        <translation>Les deux surfaces</translation>
    </message>
    <message>
        <source>CUT is where “{upper}” lies above “{lower}”: soil that goes when the ground is brought from “{upper}” down to “{lower}”. FILL is where “{upper}” lies below “{lower}”: soil that must come to bring it up.</source>
        <translation>Le DÉBLAI est là où « {upper} » est au-dessus de « {lower} » : de la terre qui part quand on abaisse le terrain de « {upper} » à « {lower} ». Le REMBLAI est là où « {upper} » est au-dessous de « {lower} » : de la terre à apporter pour le relever.</translation>
    </message>
    <message>
        <source>Cut</source>
        <translation>Déblai</translation>
    </message>
    <message>
        <source>Cut less fill</source>
        <translation>Déblai moins remblai</translation>
    </message>
    <message>
        <source>Cut less fill, in place: {volume} more cut than fill.</source>
        <translation>Déblai moins remblai, en place : {volume} de déblai de plus que de remblai.</translation>
    </message>
    <message>
        <source>Cut less fill, in place: {volume} more fill than cut.</source>
        <translation>Déblai moins remblai, en place : {volume} de remblai de plus que de déblai.</translation>
    </message>
    <message>
        <source>Cut {cut} over {cut_area}; fill {fill} over {fill_area}.</source>
        <translation>Déblai {cut} sur {cut_area} ; remblai {fill} sur {fill_area}.</translation>
    </message>
    <message>
        <source>Cut, bank</source>
        <translation>Déblai, en place</translation>
    </message>
    <message>
        <source>Cut, loose</source>
        <translation>Déblai, foisonné</translation>
    </message>
    <message>
        <source>Fill</source>
        <translation>Remblai</translation>
    </message>
    <message>
        <source>Fill, compacted</source>
        <translation>Remblai, compacté</translation>
    </message>
    <message>
        <source>Greatest</source>
        <translation>Maximal</translation>
    </message>
    <message>
        <source>How it was measured</source>
        <translation>Comment c&apos;est mesuré</translation>
    </message>
    <message>
        <source>Level</source>
        <translation>De niveau</translation>
    </message>
    <message>
        <source>Loose for the fill</source>
        <translation>Foisonné pour le remblai</translation>
    </message>
    <message>
        <source>Mean</source>
        <translation>Moyen</translation>
    </message>
    <message>
        <source>No data</source>
        <translation>Sans données</translation>
    </message>
    <message>
        <source>North is up. Hatched: “{upper}” lies above “{lower}” (cut). Dotted: it lies below (fill). Plain: no difference.</source>
        <translation>Le nord est en haut. Hachuré : « {upper} » est au-dessus de « {lower} » (déblai). Pointillé : elle est au-dessous (remblai). Uni : pas d&apos;écart.</translation>
    </message>
    <message>
        <source>Outside the zones (not in the total)</source>
        <translation>Hors des zones (pas dans le total)</translation>
    </message>
    <message>
        <source>Plan of cut and fill, north up</source>
        <translation>Plan des déblais et remblais, nord en haut</translation>
    </message>
    <message>
        <source>The mean difference is the volume (cut less fill) over the area that both surfaces cover; differences are “{upper}” less “{lower}”, positive where cut is.</source>
        <translation>L&apos;écart moyen est le volume (déblai moins remblai) divisé par l&apos;aire que les deux surfaces couvrent ; les écarts sont « {upper} » moins « {lower} », positifs là où il y a déblai.</translation>
    </message>
    <message>
        <source>Total</source>
        <translation>Total</translation>
    </message>
    <message>
        <source>Volumes between two surfaces</source>
        <translation>Volumes entre deux surfaces</translation>
    </message>
    <message>
        <source>Volumes by zone, feet and yards</source>
        <translation>Volumes par zone, pieds et yards</translation>
    </message>
    <message>
        <source>Volumes by zone, metric</source>
        <translation>Volumes par zone, métrique</translation>
    </message>
    <message>
        <source>Where cut and fill are</source>
        <translation>Où sont déblai et remblai</translation>
    </message>
    <message>
        <source>With the fill compacted to {compacted:.3g} of its volume in the bank, {volume} (bank) are lacking; loose, at {loose:.3g}, {loose_volume}.</source>
        <translation>Le remblai étant compacté à {compacted:.3g} de son volume en place, il manque {volume} (en place) ; foisonné, à {loose:.3g}, {loose_volume}.</translation>
    </message>
    <message>
        <source>With the fill compacted to {compacted:.3g} of its volume in the bank, {volume} (bank) are left over; loose, at {loose:.3g}, {loose_volume}.</source>
        <translation>Le remblai étant compacté à {compacted:.3g} de son volume en place, il reste {volume} (en place) ; foisonné, à {loose:.3g}, {loose_volume}.</translation>
    </message>
    <message>
        <source>Zone</source>
        <translation>Zone</translation>
    </message>
    <message>
        <source>cut</source>
        <translation>déblai</translation>
    </message>
    <message>
        <source>fill</source>
        <translation>remblai</translation>
    </message>
    <message>
        <source>level</source>
        <translation>de niveau</translation>
    </message>
    <message>
        <source>{share:.1f} % of the area of the zones ({area}) lacks one of the surfaces: what lies there is not in these figures.</source>
        <translation>{share:.1f} % de l&apos;aire des zones ({area}) n&apos;a pas l&apos;une des surfaces : ce qui s&apos;y trouve n&apos;est pas dans ces chiffres.</translation>
    </message>
    <message>
        <source>Balance, bank</source>
        <translation>Solde, en place</translation>
    </message>
    <message>
        <source>Balance: + is left over, - is lacking</source>
        <translation>Solde : + est en trop, - manque</translation>
    </message>
    <message>
        <source>Least</source>
        <translation>Minimal</translation>
    </message>
    <message>
        <source>Least, mean and greatest difference, + where cut is</source>
        <translation>Écart minimal, moyen et maximal, + là où il y a déblai</translation>
    </message>
</context>
<context>
    <name>Zones</name>
    <message>
        <source>Zone {zone} has no depth: fill in its field, or give a depth for all.</source>
        <translation>La zone {zone} n&apos;a pas de profondeur : remplissez son champ, ou donnez une profondeur pour toutes.</translation>
    </message>
    <message>
        <source>{count} zones have no depth in their field and got the one for all: {ids}.</source>
        <translation>{count} zones n&apos;ont pas de profondeur dans leur champ et ont reçu celle de toutes : {ids}.</translation>
    </message>
    <message>
        <source>Depth for all</source>
        <translation>Profondeur pour toutes</translation>
    </message>
    <message>
        <source>Depth of zones that have none in the field, or of all without a field, and of the design outside all zones where that is chosen. Positive is below the design, a minus sign raises. With a unit, or in the unit of the heights: 0.2 ft, 2 1/2 in, 60 mm.</source>
        <translation>Profondeur des zones qui n&apos;en ont pas dans le champ, ou de toutes sans champ, et du projet hors de toutes les zones si c&apos;est choisi. Positive sous le projet, un signe moins relève. Avec une unité, ou dans l&apos;unité des altitudes : 0.2 ft, 2 1/2 in, 60 mm.</translation>
    </message>
    <message>
        <source>Field with the depth of each zone</source>
        <translation>Champ de la profondeur de chaque zone</translation>
    </message>
    <message>
        <source>Field with the priority of each zone</source>
        <translation>Champ de la priorité de chaque zone</translation>
    </message>
    <message>
        <source>Keep the design</source>
        <translation>Garder le projet</translation>
    </message>
    <message>
        <source>Leave it out</source>
        <translation>L&apos;omettre</translation>
    </message>
    <message>
        <source>Outside all zones</source>
        <translation>Hors de toutes les zones</translation>
    </message>
    <message>
        <source>Outside all zones the depth for all is to be used, but it is empty: give it.</source>
        <translation>Hors de toutes les zones, la profondeur pour toutes doit servir, mais elle est vide : donnez-la.</translation>
    </message>
    <message>
        <source>Polygons below which a depth holds. Zones in another CRS are moved to that of the design.</source>
        <translation>Polygones sous lesquels une profondeur vaut. Les zones dans un autre SCR sont portées dans celui du projet.</translation>
    </message>
    <message>
        <source>Positive is below the design, a minus sign raises, 0 stays on it. Numbers are in the unit of the heights; texts may name their unit (0.2 ft, 2 1/2 in, 60 mm). Left blank together with the depth for all, a field called “depth” is used if there is one.</source>
        <translation>Positif sous le projet, un signe moins relève, 0 reste dessus. Les nombres sont dans l&apos;unité des altitudes ; les textes peuvent nommer leur unité (0.2 ft, 2 1/2 in, 60 mm). Si la profondeur pour toutes est vide aussi, un champ nommé « depth » est utilisé s&apos;il existe.</translation>
    </message>
    <message>
        <source>There is no depth: choose the field with the depth of each zone, or give a depth for all.</source>
        <translation>Il n&apos;y a pas de profondeur : choisissez le champ de la profondeur de chaque zone, ou donnez une profondeur pour toutes.</translation>
    </message>
    <message>
        <source>Use the depth for all</source>
        <translation>Utiliser la profondeur pour toutes</translation>
    </message>
    <message>
        <source>Where zones overlap, the one with the lower number wins (1 before 2). Without it an overlap stops the run.</source>
        <translation>Là où des zones se recouvrent, celle du plus petit numéro l&apos;emporte (1 avant 2). Sans ce champ, un recouvrement arrête le traitement.</translation>
    </message>
    <message>
        <source>Zones</source>
        <translation>Zones</translation>
    </message>
    <message>
        <source>&apos;{value}&apos; is negative, but a bottom can only carry on outward: write 0 or more.</source>
        <translation>« {value} » est négatif, mais un fond ne se prolonge que vers l&apos;extérieur : écrivez 0 ou plus.</translation>
    </message>
    <message>
        <source>&apos;{value}&apos; is no thickness rule: write plumb (measured vertically) or square (at right angles to the design).</source>
        <translation>« {value} » n&apos;est pas une règle d&apos;épaisseur : écrivez plumb (mesurée à la verticale) ou square (perpendiculairement au projet).</translation>
    </message>
    <message>
        <source>Batter of the sides, run to rise</source>
        <translation>Talus des côtés, base sur hauteur</translation>
    </message>
    <message>
        <source>Batters count from</source>
        <translation>Les talus se comptent depuis</translation>
    </message>
    <message>
        <source>Carry its slope on</source>
        <translation>Prolonger sa pente</translation>
    </message>
    <message>
        <source>Carry the bottom on by</source>
        <translation>Prolonger le fond de</translation>
    </message>
    <message>
        <source>Depth is measured</source>
        <translation>La profondeur se mesure</translation>
    </message>
    <message>
        <source>Field that says how each depth is measured</source>
        <translation>Champ qui dit comment chaque profondeur se mesure</translation>
    </message>
    <message>
        <source>Field with how far each bottom carries on</source>
        <translation>Champ du prolongement de chaque fond</translation>
    </message>
    <message>
        <source>Field with the batter of each zone</source>
        <translation>Champ du talus de chaque zone</translation>
    </message>
    <message>
        <source>From the edge of the bottom the side climbs by this ratio until it meets the design or a neighbour: 1.5:1 (or 1.5) runs 1.5 for each 1 it rises. 0 or blank is upright. What slope will stand is for local code and a competent person to say.</source>
        <translation>Du bord du fond, le côté monte selon ce rapport jusqu&apos;à rencontrer le projet ou une voisine : 1.5:1 (ou 1.5) avance de 1,5 quand il monte de 1. 0 ou vide : vertical. Quel talus tiendra, c&apos;est à la réglementation locale et à une personne compétente de le dire.</translation>
    </message>
    <message>
        <source>From the level, the ratio is the true run to rise of the side. From the design, it is the run over which the depth below the design becomes one less: even runouts on sloping ground.</source>
        <translation>Depuis l&apos;horizontale, le rapport est la vraie base sur hauteur du côté. Depuis le projet, c&apos;est la base sur laquelle la profondeur sous le projet diminue de un : des largeurs égales sur un terrain en pente.</translation>
    </message>
    <message>
        <source>Gaps and overlaps between neighbours up to this distance are closed before anything else: the smaller zone gives way, and the largest move is reported. Left blank it is {usual}; at most {most}. Zones farther apart than that are meant to be apart.</source>
        <translation>Les vides et recouvrements entre voisines jusqu&apos;à cette distance sont fermés avant tout le reste : la plus petite zone cède, et le plus grand déplacement est signalé. Laissé vide : {usual} ; au plus {most}. Des zones plus éloignées sont voulues séparées.</translation>
    </message>
    <message>
        <source>Holds the word plumb or square for each zone. Blank ones are measured as chosen for all.</source>
        <translation>Contient le mot plumb ou square pour chaque zone. Les zones sans mot se mesurent comme choisi pour toutes.</translation>
    </message>
    <message>
        <source>How bottoms that carry on and batters go round outside corners. A mitre reaches 4 times the width at most: sharper corners are cut square in bottoms and rounded in batters.</source>
        <translation>Comment les fonds prolongés et les talus passent les angles saillants. Un onglet atteint au plus 4 fois la largeur : les angles plus aigus sont coupés d&apos;équerre pour les fonds et arrondis pour les talus.</translation>
    </message>
    <message>
        <source>How far the bottom carries on past the edge of its zone, measured in plan. The plan often stops at the back of curb while the cut has to run 1 ft past it (common practice). Where bottoms meet, the deeper one wins. With a unit, or in the unit of the plan.</source>
        <translation>De combien le fond se prolonge au-delà du bord de sa zone, mesuré en plan. Le plan s&apos;arrête souvent à l&apos;arrière de la bordure alors que la fouille doit aller 1 ft plus loin (pratique courante). Là où des fonds se rencontrent, le plus profond l&apos;emporte. Avec une unité, ou dans l&apos;unité du plan.</translation>
    </message>
    <message>
        <source>Join borders of zones nearer than</source>
        <translation>Joindre les bords de zones plus proches que</translation>
    </message>
    <message>
        <source>Mitred</source>
        <translation>En onglet</translation>
    </message>
    <message>
        <source>Numbers in the unit of the plan, or texts with a unit (1 ft, 300 mm); blank ones get what is given for all. Left blank together with the value for all, a field called “widen” is used if there is one.</source>
        <translation>Nombres dans l&apos;unité du plan, ou textes avec une unité (1 ft, 300 mm) ; les zones sans valeur reçoivent celle de toutes. Si la valeur pour toutes est vide aussi, un champ nommé « widen » est utilisé s&apos;il existe.</translation>
    </message>
    <message>
        <source>Outside corners</source>
        <translation>Angles saillants</translation>
    </message>
    <message>
        <source>Past the edge of the design</source>
        <translation>Au-delà du bord du projet</translation>
    </message>
    <message>
        <source>Plumb (vertically)</source>
        <translation>D&apos;aplomb (à la verticale)</translation>
    </message>
    <message>
        <source>Plumb is how a machine holds a depth; square, at right angles to the design, is how a placed thickness is specified. On a slope of gradient g, square t is t × √(1 + g²) plumb: 5 % more at 3:1.</source>
        <translation>D&apos;aplomb, c&apos;est ainsi qu&apos;une machine tient une profondeur ; perpendiculairement au projet, c&apos;est ainsi qu&apos;une épaisseur mise en place est prescrite. Sur une pente g, une épaisseur perpendiculaire t vaut t × √(1 + g²) d&apos;aplomb : 5 % de plus à 3:1.</translation>
    </message>
    <message>
        <source>Rounded</source>
        <translation>Arrondis</translation>
    </message>
    <message>
        <source>Square to the slope</source>
        <translation>Perpendiculairement à la pente</translation>
    </message>
    <message>
        <source>Stop</source>
        <translation>S&apos;arrêter</translation>
    </message>
    <message>
        <source>Texts like 1.5:1, or numbers, the run for each 1 of rise; blank ones get what is given for all. Left blank together with the batter for all, a field called “batter” is used if there is one.</source>
        <translation>Textes comme 1.5:1, ou nombres, la base pour 1 de hauteur ; les zones sans valeur reçoivent celle de toutes. Si le talus pour toutes est vide aussi, un champ nommé « batter » est utilisé s&apos;il existe.</translation>
    </message>
    <message>
        <source>The design</source>
        <translation>Le projet</translation>
    </message>
    <message>
        <source>The level</source>
        <translation>L&apos;horizontale</translation>
    </message>
    <message>
        <source>Where zones, bottoms or sides reach past the edge of the design: nothing is made there, or the design is carried on with its slope as far as they reach.</source>
        <translation>Là où des zones, des fonds ou des côtés dépassent le bord du projet : rien n&apos;y est fait, ou le projet est prolongé selon sa pente aussi loin qu&apos;ils vont.</translation>
    </message>
    <message>
        <source>Zone</source>
        <translation>La zone</translation>
    </message>
    <message>
        <source>{value} is not between 0 and {most}: borders farther apart than that are meant to be apart, mend them in the layer.</source>
        <translation>{value} n&apos;est pas entre 0 et {most} : des bords plus éloignés sont voulus séparés, corrigez-les dans la couche.</translation>
    </message>
    <message>
        <source>What becomes of the design where no zone is. The depth for all is always measured plumb there.</source>
        <translation>Ce que devient le projet là où il n&apos;y a pas de zone. La profondeur pour toutes y est toujours mesurée à la verticale.</translation>
    </message>
</context>
</TS>
