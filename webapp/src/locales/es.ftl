# What people read, in Spanish as the trade speaks it in the Americas. The same messages, with the same placeables, stand
# in every file here. Words kept the same throughout: instrumento (gauge), etiqueta (tag), calcomanía (sticker), marca
# (mark of a piece), trazo (mark on a photo), orden (job), paso (step), ítem (item), lugar (station), alerta (flag),
# aviso (call to a point, notice), cordón (weld pass), llave (key of a person), credencial (badge), función (role).

## Words of closed sets

party-maker = el fabricante
party-qc = QC
party-ai = el inspector autorizado
party-customer = el cliente
party-engineering = ingeniería

role-welder = soldador
role-fitter = armador
role-tube-roller = rolador de tubos
role-foreman = capataz
role-inspector = inspector
role-supervisor = supervisor
role-authorized-inspector = inspector autorizado
role-customer = cliente
role-engineer = ingeniero
role-planner = planificador
role-layout = trazado
role-tester = encargado de pruebas

state-open = abierto
state-started = iniciado
state-flagged = no está como debe
state-met = hecho
state-complete = completo
state-released = liberado
state-not-asked = no se pide

verdict-in-tolerance = dentro de tolerancia
verdict-out-of-tolerance = fuera de tolerancia
verdict-too-close-to-call = muy cerca para decidir
verdict-recorded = registrado
verdict-unjudged = sin evaluar
verdict-accepted = aceptado
verdict-rejected = rechazado
verdict-does-not-apply = no aplica
verdict-complete = registrado
verdict-incomplete = incompleto

standing-in-force = vigente
standing-void = anulado
standing-replaced = reemplazado
standing-plan-changed = cambió el plan
standing-asked-again = se pide otra vez

signing-valid = válida
signing-void = anulada
signing-role-not-held = no tiene la función
signing-role-to-be-confirmed = función por confirmar
signing-plan-changed = cambió el plan
signing-asked-again = se pide otra vez
signing-waiting-for-records = faltan registros
signing-out-of-order = fuera de secuencia
signing-own-work = trabajo propio
signing-no-photo-of-the-page = falta la foto de la página
signing-no-notice-was-given = no se dio aviso
signing-must-be-present = debe estar presente
signing-step-was-not-met = el paso no estaba cumplido
signing-shaken = puesta en duda

why-slip = error de dedo
why-measured-again = medido otra vez
why-after-rework = tras el retrabajo
why-after-repair = tras la reparación

result-accept = aceptado
result-reject = rechazado
result-does-not-apply = no aplica

layer-root = raíz
layer-hot = caliente
layer-fill = relleno
layer-cap = vista
layer-back = respaldo

disposition-use-as-is = usar tal como está
disposition-rework = retrabajo
disposition-repair = reparación
disposition-scrap = desecho

seen-use-as-is = visto, queda como está
seen-rework = hacerlo de nuevo
seen-repair = hacerlo de nuevo

decision-to-do = por hacer
decision-waits-for-agreement = espera acuerdo
decision-done = hecho
decision-no-effect = sin efecto
decision-void = tachado

binds-code = código
binds-drawing = plano
binds-shop = taller

type-reading = lectura
type-visual = inspección visual
type-weld = cordón
type-report = informe
type-text = texto
type-photo = foto
type-note = nota
type-call = aviso
type-sign-off = firma
type-point = punto
type-disposition = disposición
type-agreement = acuerdo
type-void = tachadura
type-tagging = etiqueta

flag-open = abierta
flag-decided = decidida
flag-fixed-on-the-spot = corregida en el acto
flag-closed = cerrada

kind-out-of-tolerance = fuera de tolerancia
kind-too-close-to-call = muy cerca para decidir
kind-rejected = rechazado
kind-unjudged = sin evaluar
kind-went-past-an-open-hold = se pasó un punto de espera abierto
kind-witness-without-notice = testigo sin aviso
kind-entry-after-release = registro después de liberar
kind-sign-off-shaken = firma puesta en duda
kind-role-in-doubt = función en duda
kind-signed-in-ink = firmado con tinta
kind-readings-disagree = lecturas que no coinciden
kind-photo-missing = falta la foto
kind-gauge-ran-out = instrumento con calibración vencida
kind-gauge-too-coarse = instrumento poco preciso
kind-phone-and-server-differ = el teléfono y el servidor difieren
kind-not-in-the-plan = no está en el plan
kind-chain-gap = hueco en la cadena
kind-chain-fork = bifurcación en la cadena
kind-phone-shut-out = teléfono excluido
kind-maker-not-qualified = soldador no calificado
kind-run-rule-broken = lecturas a la deriva
kind-clock-far-off = reloj del teléfono desajustado

tag-put-on = colocada
tag-taken-off = retirada
tag-back-on = colocada de nuevo
tag-gone-inside = quedó adentro
tag-replaced = reemplazada

party-short-maker = fabricante
party-short-qc = QC
party-short-ai = AI
party-short-customer = cliente
party-short-engineering = ingeniería

point-sign = firma
point-h = espera
point-w = testigo
point-r = revisión
point-s = vigilancia

answer-coming = asistirá
answer-waived = renuncia a asistir

way-telephone = teléfono
way-message = mensaje
way-in-person = en persona

quantity-the-first-leg = el primer cateto
quantity-the-second-leg = el segundo cateto
quantity-the-volts = el voltaje
quantity-the-amps = el amperaje
quantity-the-travel = el avance
quantity-the-efficiency = la eficiencia
quantity-the-inside-diameter-before-rolling = el diámetro interior antes del rolado
quantity-the-thickness-of-the-coupon = el espesor del cupón
quantity-the-wall-reduction = la reducción de pared
quantity-share = el contenido de { $element }

field-welder = soldador
field-stamp = estampa
field-procedure = procedimiento
field-lot = lote

report-state-asked-for = pedido, aún no llega
report-state-in = recibido

## Every screen: the bar on top, and what stands at the bottom

frame-my-work = Mi trabajo
frame-job = Orden { $job }
frame-scan = Escanear
sent-all = todo enviado
sent-unsent = { $count } sin enviar
sent-heard = red { $time }
sent-not-heard = sin red aún
sent-no-server = sin servidor
sent-not-taken-in = { $count } sin admitir

not-saved = NO se guardó.
not-saved-to-file = Guardar en un archivo
not-saved-read = Leído
trouble-older = Esta aplicación es anterior a lo guardado en este teléfono. Puede enviar y exportar, pero no registrar. Cargar la página otra vez para tener la nueva.
trouble-blocked = Seamtag está abierto en otra pestaña con una versión anterior. Cerrar esa pestaña; no se pierde nada.
trouble-load-again = Cargar otra vez

update-here = Hay una versión nueva de Seamtag. Lo que falta enviar queda como está.
update-now = Actualizar
update-gone = Una versión nueva de Seamtag tomó el control en otra pestaña. Cargar esta otra vez; nada de lo guardado se pierde.
desk-no-server = No se llega al servidor
desk-no-server-how = Esta pantalla viene del servidor. Vaya adonde haya red y pruebe otra vez. Lo registrado está a salvo en este teléfono.
desk-try-again = Probar otra vez

mark-in = bien
mark-out = fuera de tolerancia
mark-close = sin decidir
mark-open = abierto
mark-started = iniciado
mark-blocked = detenido
mark-waiting = espera una firma

stop = Alto
stop-sign = ALTO
stop-wait-for = Esperar a que firme { $party }
stop-work-before = Falta hacer el trabajo anterior
stop-scrapped = desechado
stop-then = , luego{" "}
stop-more = y { $count } más

## Saving and sending

save-full = La memoria de este teléfono está llena. Guardar en un archivo lo que falta enviar y liberar espacio.
save-no-key = La llave ya no está en este teléfono. Pedir una invitación nueva.
save-newer-key = Hay una llave más nueva en este teléfono. Bloquear, y desbloquear con el PIN de esa llave.
save-too-large = Es más largo que lo que cabe en un registro. Escribir menos.
save-other-tab = Otra pestaña se adelantó. Intentar otra vez.
photo-no-picture = Este archivo no es una imagen, o está dañado. No se guardó nada. Tomar la foto otra vez.
net-unreachable = No hay conexión con el servidor.
net-between = Respondió algo que está entre este teléfono y el servidor, no el servidor.
net-odd = El servidor no respondió como debe.
net-does-not-fit = La respuesta del servidor no corresponde a lo enviado.
net-full = La memoria de este teléfono está llena: no se puede guardar lo que dice el servidor.

## Settings

settings = Ajustes
settings-back = Entrar
settings-language = Idioma
settings-gloves = Teclas grandes
settings-gloves-says = Para guantes gruesos: teclas más anchas y más separadas.
settings-outdoor = Para el sol
settings-outdoor-says = Negro sobre blanco, con letra más gruesa. Subir también el brillo del teléfono.
settings-left = Mano izquierda
settings-left-says = Lo que más se toca queda a la izquierda.
settings-vibration = Vibración
settings-vibration-says = Una corta si está bien, dos largas si es otra cosa. Algunos teléfonos no pueden.
settings-sound = Sonido
settings-sound-says = Agudo si está bien, grave si es otra cosa.
settings-try = Probar: no está bien

## Data kept on this phone, and installing

install-title = ¿Está a salvo aquí?
install-kept = Este navegador prometió conservar lo registrado aquí hasta que se envíe.
install-not-kept = Este navegador no prometió conservar lo registrado aquí: si al teléfono le falta espacio, puede borrarlo. Poner Seamtag en la pantalla de inicio y enviar con frecuencia.
install-done = Seamtag está en la pantalla de inicio. Es el lugar más seguro.
install-why = En la pantalla de inicio, lo registrado se conserva con más seguridad que en una pestaña del navegador. Abrir el menú del navegador y elegir instalar, o agregar a la pantalla de inicio.
install-now = Poner en la pantalla de inicio
install-ios = En esta pestaña, un iPhone o iPad borra lo registrado cuando Seamtag pasa siete días sin usarse: si no se abre de nuevo, después del { $until }.
install-ios-unsent = { $count ->
    [one] 1 registro está sin enviar. En esta pestaña, un iPhone o iPad lo borra cuando Seamtag pasa siete días sin usarse: si no se abre de nuevo, después del { $until }.
   *[other] { $count } registros están sin enviar. En esta pestaña, un iPhone o iPad los borra cuando Seamtag pasa siete días sin usarse: si no se abre de nuevo, después del { $until }.
  }
install-ios-how = Tocar Compartir, luego Agregar a inicio, y registrar solo desde ahí. Tiene su propia memoria: enviar antes lo que falta aquí, y dar de alta el teléfono allá con una invitación nueva.

## Day review

review = Revisión del día
review-offline = { $says } La revisión necesita el servidor; lo registrado está a salvo.
review-stale = Como se recibió a las { $time }; el servidor no responde. Lo firmado aquí queda guardado y se envía cuando vuelva.
review-stale-says = Como se recibió a las { $time }. { $says }
review-flags-offline = Estas alertas aún no se han traído, y el servidor no responde.
review-not-yours = La revisión del día es para supervisores, inspectores y oficina. Lo que toca hacer está en Mi trabajo.
review-loading = Trayendo el día …
review-choose-day = Día y turno
review-day-before = día anterior
review-day-after = día siguiente
review-today = hoy
review-shifts = Turnos
review-whole-day = día completo
review-shift = { $from } a { $to }
review-counts = { $shift ->
    [0] De este día:
   *[other] De este turno:
  } { $recorded } registrados; { $flags } alertas: { $open ->
    [one] 1 abierta
   *[other] { $open } abiertas
  }, { $decided ->
    [one] 1 decidida
   *[other] { $decided } decididas
  }, { $on_the_spot ->
    [one] 1 corregida en el acto
   *[other] { $on_the_spot } corregidas en el acto
  }, { $closed ->
    [one] 1 cerrada
   *[other] { $closed } cerradas
  }
review-counts-away = { $shift ->
    [0] De este día:
   *[other] De este turno:
  } { $recorded } registrados; { $flags } alertas: { $open ->
    [one] 1 abierta
   *[other] { $open } abiertas
  }, { $away ->
    [one] 1 firmada aquí
   *[other] { $away } firmadas aquí
  }, { $decided ->
    [one] 1 decidida
   *[other] { $decided } decididas
  }, { $on_the_spot ->
    [one] 1 corregida en el acto
   *[other] { $on_the_spot } corregidas en el acto
  }, { $closed ->
    [one] 1 cerrada
   *[other] { $closed } cerradas
  }
review-open-now = Abiertas ahora, de cualquier día: { $open }
review-away = { $count ->
    [one] 1 firmada aquí, aún sin enviar
   *[other] { $count } firmadas aquí, aún sin enviar
  }
review-not-begun = { $shift ->
    [0] Este día aún no empieza.
   *[other] Este turno aún no empieza.
  }
review-listed-any = { $state ->
    [decided] Decididas, de cualquier día, lo peor primero.
   *[open] Abiertas ahora, de cualquier día, lo peor primero.
  }
review-listed-day = { $shift ->
    [0] Las de este día, lo peor primero.
   *[other] Las de este turno, lo peor primero.
  }
review-open-flags = { $count ->
    [one] 1 alerta abierta
   *[other] { $count } alertas abiertas
  }
review-released = { $count ->
    [one] 1 paso liberado
   *[other] { $count } pasos liberados
  }
review-spot-count = { $count } corregidos en el acto
review-ways = Informes y listas
review-report = Informe del día
review-rework-sheet = Lista de retrabajos
review-silent = { $count ->
    [one] 1 teléfono sin contacto
   *[other] { $count } teléfonos sin contacto
  }
review-silent-waiting = { $count ->
    [one] 1 teléfono sin contacto, { $waiting } esperan en él
   *[other] { $count } teléfonos sin contacto, { $waiting } esperan en ellos
  }
review-missing = { $count ->
    [one] 1 persona aún no registra
   *[other] { $count } personas aún no registran
  }
review-all-heard = Todos los teléfonos en contacto
review-list-ready_for_ai = listos para AI
review-list-blocked = detenidos por una firma
review-list-reports = informes por atender
review-list-rework = decidido, sin hacer
review-list-title = { $title }: { $count }
review-says-ready_for_ai = Todo está registrado y firmado hasta el Inspector Autorizado: se pueden firmar en la próxima visita.
review-says-blocked = No pueden seguir hasta que alguien firme lo que está antes.
review-says-reports = Pedidos y aún no recibidos, o recibidos en un paso aún no liberado.
review-says-rework = Decidido y aún no hecho, lo más antiguo primero.
review-none-ready_for_ai = Nada espera al Inspector Autorizado.
review-none-blocked = Nada está detenido.
review-none-reports = No falta ningún informe.
review-none-rework = No queda nada por hacer: todo lo decidido se hizo.
review-ready-since = { $days ->
    [0] desde hoy
    [one] hace 1 día
   *[other] hace { $days } días
  }
review-days = { $days ->
    [0] hoy
    [one] 1 día
   *[other] { $days } días
  }
review-behind = { $party }: { $mark } { $number }
review-behind-more = { $party }: { $mark } { $number } y { $count } más
review-behind-step = en { $mark } { $number } { $step }
review-report-back = { $what }: ya llegó
review-report-asked = { $what }: { $days ->
    [0] pedido hoy
    [one] pedido hace 1 día
   *[other] pedido hace { $days } días
  }
review-report-overdue = { $what }: pedido hace { $days } días, { $late ->
    [one] 1 día de retraso
   *[other] { $late } días de retraso
  }
review-rework-since = { $what }, { $days ->
    [0] decidido hoy
    [one] decidido hace 1 día
   *[other] decidido hace { $days } días
  }
review-rework-ncr = { $disposition }, no conformidad { $ncr }
review-rework-waits = { $what }, espera el acuerdo de { $parties }
review-more = { $count } más
review-flags = Alertas
review-by-state = Alertas por estado
review-by-job = Orden
review-by-stage = Etapa
review-by-kind = Tipo
review-by-person = Registró
review-all = todo
review-option = { $name } ({ $count })
review-clear = Quitar filtros
review-left = { $left } de { $all } alertas.
review-first-only = Solo se listan las primeras { $listed }; las demás siguen al resolver estas.
review-no-flags = No hay alertas aquí.
review-none-left = Ninguna alerta con estos filtros.
review-all-decided = Nada pendiente: todas las alertas están decididas.
review-all-decided-next = Lo que envíen los teléfonos desde ahora aparece aquí solo.
review-piece = Pieza
review-job = Orden
review-item = Ítem
review-who = Quién, cuándo
review-column-piece = Pieza
review-column-item = Ítem y paso
review-column-value = Valor y límite
review-column-kind = Qué pasa
review-column-who = Quién, cuándo
review-marked = Marcadas para decidir juntas
review-mark = Marcar { $place }
review-new = nueva
review-begun = motivo empezado
review-came = { $count ->
    [one] 1 nueva: { $marks }.
   *[other] { $count } nuevas: { $marks }.
  }
review-signed = { $count ->
    [one] Firmado y guardado: { $disposition }, { $marks }.
   *[other] Firmado y guardado: { $disposition }, { $count } alertas.
  }
review-signed-here = { $count ->
    [one] Guardado en este equipo: { $disposition }, { $marks }. Se envía cuando vuelva el servidor.
   *[other] Guardado en este equipo: { $disposition }, { $count } alertas. Se envían cuando vuelva el servidor.
  }
review-signed-back = Volver a { $marks }
review-not-signed = { $place }: sin firmar. { $why }
review-opened = Alerta abierta
review-to-list = Alertas
review-gone = Esta alerta ya no está: un registro posterior la resolvió.
review-past-tolerance-times = { $margin } { $uom } fuera de su límite: { $share } veces la tolerancia.
review-past-tolerance-part = { $margin } { $uom } fuera de su límite: { $share } de la tolerancia.
review-past-gauge-times = { $margin } { $uom } fuera de su límite: { $share } veces la incertidumbre del instrumento.
review-past-gauge-part = { $margin } { $uom } fuera de su límite: { $share } de la incertidumbre del instrumento.
review-past-limit-times = { $margin } { $uom } fuera de su límite: { $share } veces el límite.
review-past-limit-part = { $margin } { $uom } fuera de su límite: { $share } del límite.
review-binds = exigido por { $what }
review-binds-source = exigido por { $what }: { $source }
review-photo-large = Ver la foto grande: { $photo }
review-photo-lost = Una foto no se puede mostrar: no hay contacto con el servidor.
review-photo-coming = Una foto viene en camino.
review-photo-at = { $place }, paso { $number } { $step }.
review-photo-by = { $place }, paso { $number } { $step }. { $person }, { $time }.
review-photo-drawn = { $count ->
    [one] Sobre la foto hay 1 marca dibujada; la foto misma no cambia.
   *[other] Sobre la foto hay { $count } marcas dibujadas; la foto misma no cambia.
  }
review-facts = De qué se trata
review-fact-recorded = Registró
review-fact-by = { $person }, { $time }
review-fact-step = Paso
review-fact-limit = Límite
review-fact-gauge = Instrumento
review-fact-procedures = Procedimientos
review-gauge-due = { $name }, calibrado hasta { $due }
review-gauge-u = { $name }, U { $uncertainty }
review-gauge-due-u = { $name }, calibrado hasta { $due }, U { $uncertainty }
review-to-step = Al paso { $step } de { $mark }
review-last = Últimas { $count } lecturas de { $item }
review-trend = Las últimas { $count } lecturas de { $item }, de { $least } a { $most } { $uom }
review-to-trends = A todas las lecturas de { $item }
review-history = Como se encontró, como quedó
review-history-here = esta alerta
review-history-about = sobre: { $kind }
review-others = También registrado en este paso
review-others-more = { $count } más en este paso
review-mark-alike = Marcar las { $count } iguales
review-unmark = Desmarcar todas
review-keys = Teclas
review-key-move = a la alerta siguiente, a la anterior
review-key-ends = a la primera, a la última
review-key-open = a la alerta abierta
review-key-mark = marcar la alerta, para decidir varias a la vez; también la barra espaciadora
review-key-alike = marcar todas las iguales
review-key-choose = elegir qué se hace, por la cifra del botón
review-key-sign = firmar
review-key-back = atrás; quitar lo elegido o marcado
review-key-help = esta lista
review-keycap-ends = Inicio Fin
review-keycap-open = Intro
review-keycap-sign = Ctrl Intro
review-keycap-back = Esc
review-keys-act = Las teclas de una letra o cifra actúan
review-keys-close = Cerrar
review-ncr = Decisiones y no conformidades
review-says-ncr = Lo decidido sobre hallazgos, lo más antiguo primero.
review-ncr-which = Qué decisiones
review-ncr-open = sin hacer
review-ncr-all = todas
review-group = Agrupar
review-group-age = por antigüedad
review-group-piece = por pieza
review-group-disposition = por decisión
review-none-ncr = No queda nada por hacer: todo lo decidido se hizo.
review-none-ncr-all = Aún no se decidió nada.
review-ncr-seen = Visto, queda como está: { $count }
review-says-seen = Dudas sobre cómo se halló algo, quién lo halló o por qué vía llegó. Se miraron; con eso no se aceptó ningún hallazgo.
review-ncr-number = No conf.
review-ncr-none = sin número
review-ncr-named = No conf. { $ncr }
review-ncr-days = Días
review-ncr-what = Decidido
review-ncr-why = Por qué
review-how-it-stands = Cómo está
review-cycle = R{ $cycle }
review-again = { $count ->
    [one] 1 paso de nuevo
   *[other] { $count } pasos de nuevo
  }
review-waits-for = espera acuerdo: { $parties }
review-piece-of-job = { $mark }, orden { $job }
review-since = Desde
review-behind-what = Quién lo libera, y dónde
review-report-what = Informe
review-spot = Corregido en el acto
review-spot-title = Corregido en el acto: { $count }
review-says-spot = Encontrado fuera de tolerancia o rechazado y corregido por quien lo encontró, antes de que alguien firmara. No necesita decisión; lo que se repite, quizá sí.
review-none-spot = Nada se corrigió en el acto.
review-times = { $count ->
    [one] una vez
   *[other] { $count } veces
  }
review-found = Como se encontró
review-rejected = rechazado
review-not-heard = Sin contacto
review-says-silent = Lo que está en estos teléfonos está a salvo ahí, y solo cuenta cuando llega.
review-phones = Teléfonos
review-phone = Teléfono
review-person = Persona
review-last-heard = Último contacto
review-waiting = Esperan
review-oldest = El más antiguo
review-holds = Espacio en el teléfono
review-holds-for = para unos { $length }
review-holds-only = solo para { $length }: llevarlo a la red
review-holds-no-more = ya no queda: llevarlo hoy a la red
review-none-silent = Todos los teléfonos tuvieron contacto en las últimas dos horas.
review-people-missing = Registraron el día anterior, y hoy nada
review-last-recorded = Último registro
review-none-missing = Todos los que registraron el día anterior ya registraron hoy.

## Finder: the camera in its frame

finder-picture = Cámara
finder-hold = Mantener el código dentro del marco. Si hay dos, sirve cualquiera.
finder-several = Hay dos códigos distintos a la vista. Acercarse al que se busca, o tapar el otro.
finder-nothing = Aún no se encuentra ningún código. Limpiarlo, acercarse, alumbrarlo. También se puede seguir abajo, sin la cámara.
finder-light-on = Encender luz
finder-light-off = Apagar luz
finder-lens = Otra lente
finder-again = Intentar otra vez
finder-not-allowed = La cámara no tiene permiso. Darle permiso a esta página en los ajustes del navegador, o seguir abajo sin ella.
finder-none = Aquí no hay cámara. Seguir abajo sin ella.
finder-not-secure = El navegador no le da cámara a esta página, porque su dirección no empieza con https. Abrirla por su dirección https, o seguir abajo sin la cámara.
finder-busy = La cámara no arranca; quizá la usa otra aplicación. Cerrar esa aplicación, o seguir abajo sin la cámara.
finder-no-reader = La cámara funciona, pero el lector de códigos no cargó. Conectarse una vez, o seguir abajo sin la cámara.

## Scan

scan-title = Escanear
scan-field = Código de la etiqueta, o una marca
scan-open = Abrir
scan-tag-gone = ¿Falta la etiqueta? Elegir la marca
scan-marks-of = Marcas de la orden { $job }
scan-marks-found = { $count ->
    [one] 1 marca
   *[other] { $count } marcas
}
scan-pick = Varias marcas coinciden. Elegir una abajo, o escribir más.
scan-no-mark = Ninguna orden de este teléfono tiene una marca así.
scan-type-more = Y { $count } más. Escribir más de la marca, de su nombre o de su orden.
scan-again = Escanear
scan-open-all-the-same = Abrir la pieza de todos modos
scan-on-its-way = Lo que este teléfono aún no recibe puede venir en camino. La pieza se abre aquí sola en cuanto llega su orden.
scan-no-tag = Este código QR no es de una etiqueta de pieza, o un símbolo de su código está dañado. Probar con el otro QR, o escribir el código.
scan-unknown = Ninguna etiqueta de este teléfono tiene el código { $code }. Puede ser de una orden que este teléfono no lleva, o de otro taller. Elegir la marca en la lista.
scan-other-shop = Esta etiqueta es de otro taller ({ $host }). No se abrió nada. ¿Es la pieza correcta?
scan-replaced = La etiqueta { $code } se reemplazó: la pieza { $mark } de la orden { $job } ahora tiene la etiqueta { $now }. Retirar la vieja y escanear la nueva.
scan-other-board = Este es el tablero de una orden de otro taller ({ $host }). No se abrió nada.
scan-no-job = Este es el tablero de la orden { $job }, que no está en este teléfono. Conectarse una vez para descargarla.
scan-gauge = Esta es la calcomanía del instrumento { $gauge }, { $name }. Escanearla donde una lectura pide el instrumento.
scan-no-gauge = Esta es la calcomanía del instrumento { $gauge }, que este teléfono no conoce. Conectarse una vez, o preguntar a quien guarda los instrumentos.
scan-odd-symbol = “{ $typed }” no es un código: ningún código lleva { $symbol }. Mirar la etiqueta otra vez.
scan-wrong-length = “{ $typed }” no es un código: tiene { $count } de { $asked } símbolos. Mirar la letra grande entre los dos códigos QR.
scan-no-fit = “{ $typed }” no es un código: hay un símbolo equivocado, o dos cambiados de lugar. El último no concuerda con los demás. Mirar la etiqueta otra vez.

## Job: its pieces by mark

job-not-here = La orden { $job } no está en este teléfono. Conectarse una vez para descargarla.
job-title = Orden { $job }
job-board = Del tablero de esta orden
job-field = Marca o nombre
job-none-fits = Ninguna marca de esta orden coincide con “{ $typed }”. Escribir menos.
job-count = { $count ->
    [one] 1 marca
   *[other] { $count } marcas
}
job-more = Mostrar { $count } más
job-next-stopped = { $step } · detenido
job-next-flagged = { $step } · no está como debe
job-next-waits = { $step } · falta que firme { $party }
job-released = liberada
job-of-parts = terminada cuando lo estén sus partes

## Tag of a piece

tagging-none = No se preparó etiqueta para esta pieza.
tagging-not-yet = aún no colocada
tagging-off-heat = retirada por calor
tagging-off-blast = retirada por granallado
tagging-code = Etiqueta
tagging-change = Cambiar
tagging-ask = Etiqueta { $code }, { $state }. ¿Qué se hace con ella?
tagging-do-put-on = Colocada
tagging-do-taken-off-heat = Retirada por calor
tagging-do-taken-off-blast = Retirada por granallado
tagging-do-back-on = Colocada de nuevo
tagging-do-gone-inside = Quedó adentro
tagging-do-replaced = Reemplazada por una nueva
tagging-leave = Dejarla así

## My work

work-scan = Escanear una etiqueta
work-review = Revisión del día
work-nothing = No hay nada pendiente. Escanear una etiqueta para empezar un paso.
work-looking = Buscando lo pendiente
work-rework = Retrabajo y reparación
work-rework-what = { $disposition }: { $reason }
work-rework-what-ncr = { $disposition }, no conformidad { $ncr }: { $reason }
work-rework-where = { $step } · { $item }
work-rework-where-station = { $step } · { $item }, { $station }
work-rework-photo = Foto de lo encontrado en { $mark }
work-begun = Iniciado, sin terminar
work-begun-what = { $step } · { $met } de { $asked } hechos
work-begun-flagged = { $step } · no está como debe
work-ready = Ya se puede hacer
work-ready-complete = { $step } · listo para firmar
work-ready-started = { $step } · iniciado, { $met } de { $asked } hechos
work-ready-open = { $step } · sin iniciar
work-calls = Avisos
work-called-to = Avisos recibidos
work-call-coming = { $party } · aviso para el { $when } · asistirá
work-call-waived = { $party } · aviso para el { $when } · renuncia a asistir
work-call-open = { $party } · aviso para el { $when } · sin respuesta
work-call-no-time = { $party } · aviso sin hora · { $answer }
work-call-not-answered = sin respuesta
work-notes = Del turno anterior
work-notes-by = { $name } · { $at }
work-asked = Por acordar
work-in-job = orden { $job }
work-more = { $count ->
    [one] y 1 más
   *[other] y { $count } más
  }
work-jobs = Órdenes
work-no-jobs = Aún no hay órdenes en este teléfono. Se descargan mientras hay red.
work-lock = Bloquear
work-pin = Cambiar PIN
work-badge = Credencial

## Piece

piece-not-here = Esta pieza no está en este teléfono. Conectarse una vez para descargar su orden, o escanear otra vez.
piece-found-scanned = etiqueta escaneada
piece-found-typed = código escrito
piece-found-list = elegida en la lista
piece-found-board = desde el tablero de etiquetas
piece-kind = { $kind } · { $job }
piece-joins = une { $marks }
piece-part-of = parte de { $marks }
piece-has-parts = { $count ->
    [one] 1 parte: { $marks }
   *[other] { $count } partes: { $marks }
  }
piece-joined-by = unida por { $marks }
piece-repairs = Ciclo de reparación R{ $count }
piece-done-of = { $met } de { $asked } hechos
piece-flagged = no está como debe · { $met } de { $asked } hechos
piece-sign = listo para firmar
piece-waits-for = todo registrado · falta que firme { $party }
piece-finished = Todos los pasos están liberados.
piece-no-steps = A esta pieza no se le pide nada: está terminada cuando lo están sus partes.
piece-another = Escanear otra etiqueta
piece-not-taken-in = { $count ->
    [one] El servidor no admitió 1 registro, que no cuenta.
   *[other] El servidor no admitió { $count } registros, que no cuentan.
  }
piece-missing = { $count ->
    [one] 1 registro ya no está en el servidor desde que se restauró, y no cuenta.
   *[other] { $count } registros ya no están en el servidor desde que se restauró, y no cuentan.
  }
piece-which = Ver cuáles y por qué
piece-steps = Pasos
piece-step-stopped = detenido
piece-signed = { $party }: { $name }
piece-signed-absent = { $party } no asistió tras el aviso: { $name }
piece-signed-ink = { $party } con tinta en papel, lo ingresó { $name }
piece-next = Sigue { $party }: { $point }
piece-next-named = Sigue { $party }: { $point } ({ $names })
piece-released-by = Puede liberarlo: { $names }
piece-later = { $party }: { $point }
piece-records = { $count ->
    [one] 1 registro
   *[other] { $count } registros
  }
piece-records-of = Lo registrado en { $step }
piece-record-by = { $name } · { $at }
piece-record-weld = cordón { $layer }, estampa { $stamp }
piece-record-report = { $number }, { $state }
piece-record-report-bare = informe { $state }
piece-record-sign-off = firma por { $party }
piece-record-call = { $party }: aviso para el { $when }
piece-record-answer = { $party }: { $answer }
piece-record-disposition = { $disposition }: { $reason }
piece-record-point = punto de { $point }, puesto por { $party }
piece-record-photo = foto
piece-record-at = { $item }, { $station }

## Notes on a piece

notes = Notas
notes-for-shift = Para este turno
notes-clear = Vista, quitar
notes-by = { $name } · { $at }
notes-write = Escribir una nota
notes-note = Nota
notes-keep-on-top = Dejarla arriba para el turno siguiente
notes-save = Guardar la nota

## Agreeing to use as is

agree-what = Usar tal como está: { $reason }
agree-what-ncr = Usar tal como está: { $reason } · no conformidad { $ncr }
agree-binds = límite exigido por { $binds }
agree = De acuerdo
agree-for = De acuerdo, por { $party }
agree-not-now = Ahora no

## Deciding at a flag

decide = Qué se hace
decide-closed = Esta alerta está { $state }.
decide-closed-by = Esta alerta está { $state }. { $person }: { $disposition }. { $reason }
decide-decided = Decidido: { $what }.
decide-to-do = Decidido: { $what }. Todavía no se ha hecho.
decide-waits = { $count ->
    [one] Decidido: { $what }. No vale hasta que esté de acuerdo { $parties }.
   *[other] Decidido: { $what }. No vale hasta que estén de acuerdo { $parties }.
  }
decide-said = { $person }: { $reason }
decide-signed-here = Firmado en este equipo: { $disposition }. Aparece como decidida cuando lo tenga el servidor.
decide-supervisor = Un supervisor decide qué se hace.
decide-supervisor-named = Un supervisor decide qué se hace: { $names }.
decide-no-job = La orden { $job } aún no está en este equipo. Esperar a que se descargue y luego intentar otra vez.
decide-own = Este registro es propio, y el plan pide que decida otra persona. Dejarlo a otro supervisor.
decide-some-own = { $count ->
    [one] 1 de estas es registro propio, y el plan pide que decida otra persona: queda abierta.
   *[other] { $count } de estas son registros propios, y el plan pide que decida otra persona: quedan abiertas.
  }
decide-together = { $count ->
    [one] 1 alerta marcada: una decisión, firmada para ella
   *[other] { $count } alertas marcadas: una decisión, firmada para cada una
  }
decide-agree = Usar tal como está, con un límite de { $binds }, no depende solo del taller: se necesita el acuerdo de { $parties }. Hasta entonces no vale.
decide-cycle = Esta es la reparación R{ $cycle } de { $mark }.
decide-scrap = Desechar detiene esta pieza y aquello de lo que es parte.
decide-scrap-alone = Desechar detiene { $marks }.
decide-scrap-stops = { $count ->
    [one] Desechar detiene { $marks } y aquello de lo que es parte: { $wholes }.
   *[other] Desechar detiene { $marks } y aquello de lo que son parte: { $wholes }.
  }
decide-sure = Ninguna otra decisión devuelve lo desechado. Firmar una vez más, o dejarlo.
decide-scrap-sign = Desechar { $marks }: firmar
decide-scrap-not = No desechar { $marks }
decide-begun = Aquí hay un motivo empezado y sin firmar.
decide-read-first = Leer lo escrito aquí antes y luego firmar.
decide-sign-anew = Ninguna decisión la cierra: hay que firmar de nuevo el paso.
decide-not-here = Esta decisión no es para lo marcado o abierto aquí.
decide-reason = Motivo
decide-reason-first = Escribir primero el motivo.
decide-ncr = Número de no conformidad, si hay
decide-extent = Extensión
decide-extent-like = de las 3 a las 5
decide-again = { $count ->
    [0] Pasos por inspeccionar de nuevo: ninguno
    [one] Pasos por inspeccionar de nuevo: 1
   *[other] Pasos por inspeccionar de nuevo: { $count }
  }
decide-again-which = Lo registrado en estos pasos deja de valer y se registra de nuevo.
decide-sign = Firmar: { $disposition }
decide-sign-several = Firmar { $count }: { $disposition }
decide-progress = { $count } de { $all } firmadas

## Step: cautions, items in order

step-not-asked = Este paso no se pide para esta pieza. Volver y elegir otro.
step-place = { $mark } · { $number }
step-items = Ítems
step-next = Sigue: { $item }
step-left = por hacer: { $stations }
step-left-more = { $count ->
    [one] falta 1 más
   *[other] faltan { $count } más
  }
step-left-count = faltan { $count } lugares
step-photo-asked = se pide foto
step-found-at = { $station }: { $says }
step-found-more = y { $count } más

cautions-before = Antes de empezar aquí
cautions-defer = Primero van las reglas del taller, los códigos locales y la práctica profesional con licencia: si piden más de lo que dice aquí, hacer eso. En caso de duda, parar y preguntar.
cautions-read = Leído
cautions-again = { $count ->
    [one] La precaución de este paso
   *[other] Las { $count } precauciones de este paso
  }

stop-still-open = Punto de espera aún abierto: { $places }. Se sigue por orden de alguien; queda registrado.
told-nothing-before = Antes de eso no se puede hacer nada aquí. Si hay orden de seguir, decir de quién: queda registrado y el supervisor lo ve.
told-to-go-on = Me ordenaron seguir
told-by-whom = Quién lo ordenó, y por qué
told-record = Registrarlo y seguir
told-note = Me ordenaron seguir en { $number } { $step }: { $why }

## Item: what was recorded, checks by eye, texts, reports

item-locked = La aplicación está bloqueada. Desbloquear y guardar otra vez.
item-not-asked = Este ítem no se pide para esta pieza. Volver y elegir otro.
item-place = { $mark } · { $number }
item-next = Sigue: { $item }
item-back-to-step = Volver a { $step }

recorded = Registrado
recorded-weld = { $layer } { $stamp }
recorded-line-out = Tachar
recorded-why-void = ¿Por qué no debe contar “{ $says }”? Es definitivo; sigue legible.
recorded-void = Tachar
recorded-judged = recibido y evaluado
recorded-received = recibido
recorded-not-taken-in = no admitido
recorded-saved = guardado en este teléfono

visual-at = En { $station }
visual-accept = Aceptar
visual-reject = Rechazar
visual-does-not-apply = No aplica
visual-note = Nota, si hay algo que decir
visual-what-is-wrong = Qué está mal
visual-save-rejected = Guardar como rechazado
visual-not-rejected = Volver, sin rechazar
visual-rejected = Rechazado, registrado como se encontró.
visual-rejected-next = Tomar una foto con el botón de abajo. Si se deja así, el supervisor decide qué se hace.
visual-leave = Dejarlo así y seguir

text-as-stamped = Como está en la pieza
text-save = Guardar
text-saved-as = Guardado como { $value }
text-choose-why = Elegir por qué

report-number = Número de informe
report-firm = Empresa
report-person = Quién lo hizo, si se sabe
report-level = Su nivel, si se sabe
report-pages = { $count ->
    [0] Fotografiar las páginas abajo: van con el informe.
    [one] 1 página fotografiada: va con el informe.
   *[other] { $count } páginas fotografiadas: van con el informe.
  }
report-in = Llegó el informe, con resultado
report-number-first = Primero va el número de informe.
report-asked-for = Pedido, aún no llega
report-was-in = Había llegado: { $name }, { $at }
report-was-asked-for = Lo pidió { $name }, { $at }

## Photos and marks over them

photos = Fotos
photo-take = Foto
photo-take-next = Otra foto
photo-from-gallery = De la galería
photo-asked = Aquí se pide una foto.
photo-saving = { $count ->
    [one] Guardando la foto
   *[other] Guardando { $count } fotos
  }
photo-of = { $item }, { $place } de { $count }
photo-with-marks = { $count ->
    [one] { $photo }, con 1 trazo
   *[other] { $photo }, con { $count } trazos
  }
photo-not-here = { $photo }: no está en este teléfono, pero sí en el servidor.
photo-on-phone = guardada en este teléfono
photo-sent = su registro ya se envió, la foto va después
photo-on-server = en el servidor
photo-refused = el servidor no la admite: { $reason }
photo-damaged = en el servidor, pero no se puede mostrar: { $reason }
photo-no-room = En este teléfono no cabe otra foto. Las fotos se borran de aquí cuando están en el servidor y en su respaldo.
photo-room-left = { $count ->
    [one] En este teléfono cabe más o menos 1 foto más. Las fotos se borran de aquí cuando están en el servidor y en su respaldo.
   *[other] En este teléfono caben más o menos { $count } fotos más. Las fotos se borran de aquí cuando están en el servidor y en su respaldo.
  }
photo-make-room = Enviar, o guardar en un archivo

mark-up-close = Cerrar
mark-up-leave = Cerrar, sin los trazos nuevos
mark-up-tool-arrow = Flecha
mark-up-tool-ring = Círculo
mark-up-larger = Círculo más grande
mark-up-smaller = Círculo más chico
mark-up-arrow-to = Tocar donde debe apuntar la flecha.
mark-up-arrow-from = Ahora tocar donde empieza la flecha.
mark-up-ring = Tocar el centro del círculo.
mark-up-ring-size = Achicar o agrandar el círculo con − y +, o tocar el centro del siguiente.
mark-up-rub-out = Borrar el último
mark-up-save = Guardar los trazos

## Sign-off

sign = Firma
sign-released = Liberado. Lo que se registre aquí desde ahora lo ve el supervisor.
sign-next = Siguiente en firmar: { $party }.
sign-items-open = { $count ->
    [one] Falta 1 ítem para que firme { $party }: { $items }.
   *[other] Faltan { $count } ítems para que firme { $party }: { $items }.
  }
sign-items-open-many = Faltan { $count } ítems para que firme { $party }.
sign-for = Firmar por { $party }
sign-absent = No asistió tras el aviso
sign-signs = Firma { $name }.
sign-covers = Abarca { $what }.
sign-covered = { $count ->
    [one] El registro que abarca
   *[other] Los { $count } registros que abarca
  }
sign-count-reading = { $count ->
    [one] 1 lectura
   *[other] { $count } lecturas
  }
sign-count-visual = { $count ->
    [one] 1 inspección visual
   *[other] { $count } inspecciones visuales
  }
sign-count-weld = { $count ->
    [one] 1 cordón
   *[other] { $count } cordones
  }
sign-count-report = { $count ->
    [one] 1 informe
   *[other] { $count } informes
  }
sign-count-text = { $count ->
    [one] 1 texto
   *[other] { $count } textos
  }
sign-count-photo = { $count ->
    [one] 1 foto
   *[other] { $count } fotos
  }
sign-count-decided = { $count ->
    [one] 1 disposición o tachadura
   *[other] { $count } disposiciones y tachaduras
  }
sign-sentence-made = El trabajo del paso { $number } en { $mark } está hecho.
sign-sentence-released = { $count ->
    [one] Libero el paso { $number } en { $mark }, con base en el registro listado.
   *[other] Libero el paso { $number } en { $mark }, con base en los { $count } registros listados.
  }
sign-sentence-absent = { $count ->
    [one] Paso { $number } en { $mark }: se dio aviso y no asistió { $party }. Continúo, con base en el registro listado.
   *[other] Paso { $number } en { $mark }: se dio aviso y no asistió { $party }. Continúo, con base en los { $count } registros listados.
  }
sign-pin = PIN de { $name }
sign-do = Firmar
sign-busy = Firmando
sign-nothing-signed = { $why } No se firmó nada.
sign-somebody-else = Firma otra persona
sign-back-to-me = Volver: { $name }
sign-who = Quién firma
sign-nobody-else = Nadie más tiene llave en este teléfono. Con una invitación, otra persona se da de alta aquí una sola vez: bloquear, luego “Tengo una invitación”.
sign-has-no-role = { $name } no tiene ninguna función que firme por { $party }.
sign-signed-by = Firmó { $name }. Este teléfono sigue siendo de { $me }.

ink-signed = Firmado con tinta en papel
ink-what-counts = Lo que { $party } firmó en papel lo ingresa un inspector o supervisor: fotografía la página y firma sobre su foto.
ink-seen = El supervisor ve cada una de estas firmas en la revisión del día. Guardar la página con los papeles de la orden: la firma está en el papel.
ink-who-may = La ingresa un inspector o supervisor, con su propio PIN.
ink-who-may-named = La ingresa un inspector o supervisor, con su propio PIN: { $names }.
ink-who = Quién firmó la página
ink-name-first = Decir primero quién firmó la página.
ink-photograph = Fotografiar la página
ink-again = Fotografiarla otra vez
ink-page-of = La página que firmó { $name } está fotografiada. Aún falta la firma.
ink-not = Volver, sin tinta
ink-caption = Página que { $name } firmó con tinta por { $party }
ink-enter = Ingresar la página por { $party }
ink-sentence = { $count ->
    [one] { $name } liberó el paso { $number } en { $mark } por { $party }, con tinta en la página fotografiada. Vi la página y la ingreso sobre el registro de la lista.
   *[other] { $name } liberó el paso { $number } en { $mark } por { $party }, con tinta en la página fotografiada. Vi la página y la ingreso sobre los { $count } registros de la lista.
  }

## Calls to a point

call-hold-by = Punto de espera: { $party }
call-witness-by = Testigo: { $party }
call-not-yet = Aún sin aviso.
call-not-yet-witness = Aún sin aviso. Nada sigue antes de darlo.
call-answer = Respuesta: { $answer }
call-called = Aviso dado
call-called-for = Aviso para el { $when }
call-called-how = Aviso dado: { $how }
call-called-for-how = Aviso para el { $when }: { $how }
call-by = { $name } · { $at }
call-party = Aviso para { $party }
call-again = Avisar otra vez
call-i-come = Asistiré
call-they-come = Asistirá
call-i-waive = Renuncio a asistir
call-they-waive = Renuncia a asistir
call-for-when = Para cuándo
call-how = Cómo
call-record = Registrar el aviso

## Measuring

limit-between = { $lower } a { $upper } { $uom }
limit-at-most = máximo { $upper } { $uom }
limit-at-least = mínimo { $lower } { $uom }
limit-none = se registra, sin límite
limit-both = { $own } ({ $other })
limit-about = aprox. { $value }
limit-bar = límite { $limits }

keypad-over = sobre { $under }
keypad-fraction-bar = raya de fracción
keypad-blank = espacio
keypad-rub-out = borrar
keypad-minus = menos
keypad-clear = borrar todo
keypad-point = punto
keypad-dash = guion
keypad-letters = ABC
keypad-letters-name = letras

measure-limits = { $limits } · { $binds }
measure-at = En { $station }
measure-at-number = Lugar { $station }
measure-at-clock = Hora del reloj: { $station }
measure-stations-done = { $done } de { $asked } registrados
measure-station-open = { $station }, abierto
measure-station-good = { $station }, { $value }, bien
measure-station-bad = { $station }, { $value }, no está bien
measure-change = Otro lugar
measure-choose-station = Registrados { $done } de { $asked }. Elegir uno para leerlo otra vez.
measure-at-place = { $word } { $station }
measure-change-place = Cambiar { $word }
measure-clock = Reloj
measure-seen-from = visto desde: { $end }
measure-which-count = Cuál { $word } ({ $done } de { $least })
measure-then-reading = Lectura
measure-instead = Cambiar a { $uom }
measure-verdict = { $verdict }
measure-verdict-by = { $verdict } por { $margin } { $uom }
measure-verdict-why = { $verdict }: { $reason }
measure-verdict-by-why = { $verdict } por { $margin } { $uom }: { $reason }
measure-saved = { $entered } { $uom }, { $verdict }: guardado en este teléfono
measure-saved-at = { $station }: { $entered } { $uom }, { $verdict }: guardado en este teléfono
measure-save = Guardar
measure-choose-why = Elegir por qué
measure-source = Fuente del límite: { $source }
measure-fed = Se calcula con esta lectura
measure-fed-value = { $item }: { $value } { $uom }, { $verdict }
measure-fed-value-at = { $item }, { $station }: { $value } { $uom }, { $verdict }
measure-fed-waits = { $item }: faltan otras lecturas
measure-fed-waits-at = { $item }, { $station }: faltan otras lecturas
measure-fed-no-value = { $item }: { $reason }
measure-fed-no-value-at = { $item }, { $station }: { $reason }

onward-photo = Se pide una foto: el botón está abajo.
onward-note = Qué se ve ahí
onward-note-save = Guardar la nota
onward-note-saved = La nota está guardada.
onward-another = Para leer otra vez, decir por qué. Lo encontrado queda en el libro.
onward-slip = Error de dedo
onward-measured-again = Medido otra vez
onward-after-rework = Corregido en el acto
onward-after-repair = Así quedó tras la reparación
onward-after-rework-decided = Así quedó tras el retrabajo
onward-leave = Dejarlo así y seguir
onward-leave-says = El supervisor decide qué se hace.

again-instead = En lugar de lo anterior ({ $before }), que queda en el libro:
again-instead-why = En lugar de lo anterior ({ $before }), que queda en el libro: { $why }
again-what-is-there = lo que hay ahí
again-other-reason = Otro motivo

gauge-now = { $name } · calibrado hasta { $due }
gauge-now-no-day = { $name } · sin fecha de calibración
gauge-none = No hay en el estante ningún instrumento de este tipo: { $kind }
gauge-none-asked = Aquí no se pide instrumento.
gauge-calibrated = Instrumento, calibrado hasta { $due }
gauge-no-day = Instrumento, sin fecha de calibración
gauge-ran-out = La calibración de este instrumento venció el { $due }. Tomar otro; una lectura con este queda con alerta.
gauge-coarse = Este instrumento es poco preciso para este límite: { $reason }.
gauge-scan = Escanear su calcomanía
gauge-scan-stop = Dejar de escanear
gauge-scan-hold = Mantener la calcomanía del instrumento dentro del marco.
gauge-not-a-sticker = Eso no es la calcomanía de un instrumento. Escanear la que está en el instrumento.
gauge-unknown = El instrumento { $id } no se conoce en este teléfono. Conectarse una vez para descargar la lista, o pedir al planificador que lo dé de alta.
gauge-wrong-kind = { $name } es: { $kind }; aquí se pide: { $asked }.
gauge-scanned-ran-out = La calibración de { $name } venció el { $due }. Tomar otro.

## Why something is not judged

reason-limit-not-known = límite desconocido: { $why }
reason-limits-crossed = el límite inferior es mayor que el superior
reason-revision-not-here = la revisión del plan o sus datos no están aquí
reason-formula-yes-or-no = la fórmula da sí o no donde hace falta un número
reason-condition-number = la condición da un número donde hace falta sí o no
reason-too-deep = la fórmula tiene demasiados niveles
reason-newer-plan = “{ $name }” no se conoce; el plan se hizo para un Seamtag más nuevo
reason-number-needed = hay un sí o no donde hace falta un número
reason-yes-or-no-needed = hay un número donde hace falta sí o no
reason-division-by-zero = división entre cero
reason-too-large = el resultado es demasiado grande
reason-too-small = el resultado es demasiado pequeño
reason-root-of-negative = raíz cuadrada de un valor negativo
reason-no-function = no hay ninguna función { $name }()
reason-takes-one-item = { $name }() lleva un solo ítem
reason-readings-disagree = las lecturas de { $name } no coinciden
reason-only-one = solo hay una lectura de { $name }
reason-no-table = no hay ninguna tabla “{ $name }”
reason-table-begins-above = la tabla “{ $name }” empieza por encima del valor
reason-table-no-value = la tabla “{ $name }” no tiene valor ahí
reason-above-zero = { $what } debe ser mayor que 0, y es { $is }
reason-not-below-zero = { $what } no debe ser menor que 0, y es { $is }
reason-efficiency-above-one = la eficiencia no debe ser mayor que 1, y es { $is }
reason-share-above-hundred = el contenido de { $element } no debe ser mayor que 100, y es { $is }
reason-not-in-contact = aún sin contacto: el diámetro interior es { $is }, y primero debe crecer { $by } hasta { $to }
reason-no-wall = el tubo no tiene pared: su diámetro exterior { $outside } no es mayor que su diámetro interior { $inside }
reason-does-not-go-in = el tubo no entra: el agujero { $hole } es menor que su diámetro exterior { $outside }
reason-uncertainty-not-known = no se conoce la incertidumbre del instrumento
reason-nearer-than-gauge = más cerca del límite de lo que el instrumento distingue
reason-coarse-tolerance = su incertidumbre pasa de un cuarto de la tolerancia
reason-coarse-limit = su incertidumbre pasa de un cuarto del límite
reason-no-such-item = el plan no tiene ese ítem
reason-no-reading-asked = registrado en { $uom }, el plan no pide lectura
reason-other-uom = registrado en { $uom }, el plan pide { $asked }
reason-gauge-not-known = el instrumento { $gauge } no se conoce
reason-no-gauge = no se indicó instrumento; el plan pide uno: { $kind }
reason-report-not-back = el informe no ha llegado
reason-not-given = falta: { $lacking }
reason-must-apply = aquí el plan no permite “no aplica”
reason-calibrated-until = calibrado hasta { $until }
reason-phone-said = el teléfono dijo { $said }
reason-own-finding = decide sobre un hallazgo propio
reason-chain-fork = otro registro sigue al mismo de esta llave
reason-chain-gap = el registro anterior de esta llave no ha llegado
reason-phone-shut-out = enviado por un teléfono excluido
reason-never-came = aquello en que se apoya no ha llegado
reason-no-picture = su imagen aún no ha llegado del teléfono
reason-clock-fast = el reloj del teléfono adelanta { $minutes } min o más: llegó antes de hacerse
reason-clock-slow = el reloj del teléfono atrasa { $minutes } min o más: ya conocía lo que llegó después
reason-rising-in-tolerance = en aumento: el promedio pasó de { $from } a { $to } de media tolerancia
reason-falling-in-tolerance = en descenso: el promedio pasó de { $from } a { $to } de media tolerancia
reason-rising = en aumento: el promedio pasó de { $from } a { $to } { $uom }
reason-falling = en descenso: el promedio pasó de { $from } a { $to } { $uom }
reason-missing = falta { $name }
reason-nothing-typed = No se escribió nada. Escribir un número como 1 7/8 o .875.
reason-too-many-digits = “{ $typed }” tiene más de { $most } cifras. Escribir menos.
reason-no-number-before-mark = “{ $typed }” no tiene número antes de la marca de pulgada. Escribir un número como 1 7/8.
reason-too-many-inches = “{ $typed }” tiene 12 pulgadas o más junto a los pies. Escribirlo solo en pulgadas.
reason-fraction-by-zero = “{ $typed }” divide entre cero. Escribir la fracción otra vez.
reason-no-rule-fraction = “{ $typed }” no es una fracción de regla: el número de abajo no es 2, 4, 8, 16, 32, 64 ni 128.
reason-fraction-of-one = “{ $typed }” tiene una fracción de uno o más junto a un entero. Escribirlo otra vez.
reason-comma-and-point = “{ $typed }” tiene coma y punto. Escribirlo sin uno de los dos.
reason-has-comma = “{ $typed }” tiene coma. Escribir los decimales después de un punto.
reason-has-point = “{ $typed }” tiene punto. Escribir los decimales después de una coma.
reason-half-a-fraction = “{ $typed }” se queda a media fracción. Escribir también el número de abajo.
reason-not-a-number = “{ $typed }” no es un número. Escribir uno como 1 7/8 o .875.
reason-doubt = ¿Es { $one } o { $other }?

## Why a weld is not as its procedure asks, or its welder not qualified

reason-procedure-not-known = el procedimiento { $procedure } no se conoce
reason-procedure-withdrawn = el procedimiento { $procedure } está retirado desde el { $since }
reason-one-and-rest = { $one }; { $rest }
reason-procedure-at-least = { $what } { $is }: { $procedure } pide mínimo { $lower } { $uom }
reason-procedure-at-most = { $what } { $is }: { $procedure } pide máximo { $upper } { $uom }
reason-procedure-between = { $what } { $is }: { $procedure } pide { $lower } a { $upper } { $uom }
reason-procedure-position = posición { $position }: { $procedure } pide { $asked }
reason-value-why = { $what }: { $why }
reason-not-qualified = no hay calificación registrada
reason-not-qualified-yet = ninguna calificación para { $process } antes del { $before }
reason-not-qualified-process = ninguna calificación para { $process }
reason-qualification-lapsed = { $process } venció el { $on }; última constancia { $last }
reason-qualified-to = { $process } hasta { $most } in; el ítem es de { $is } in
reason-qualified-in = { $process } en { $positions }; se soldó en { $position }
reason-of-welder = { $welder }: { $lacks }

## The ways in: unlocking, PIN, badge, invitation

pin = PIN
pin-again = PIN otra vez
pin-rub-out = borrar
pin-too-short = El PIN tiene seis cifras o más.
pin-weak = Este PIN es de los primeros que cualquiera prueba. Elegir otro.
pin-wrong = No es el PIN.
pin-wait = { $seconds ->
    [one] Esperar 1 segundo e intentar otra vez.
   *[other] Esperar { $seconds } segundos e intentar otra vez.
  }
pin-differ = Los dos PIN no son iguales. Escribirlos otra vez.

unlock-do = Entrar
unlock-busy = Entrando
unlock-who = ¿Quién desbloquea?
unlock-badge = Escanear mi credencial
unlock-somebody-else = Soy otra persona
unlock-have-invitation = Tengo una invitación
unlock-back = Volver a mi nombre
unlock-change-pin = Cambiar PIN
unlock-forgotten = PIN olvidado
unlock-not = { $says } No se pierde nada; los registros pendientes se envían igual.
unlock-no-store = La memoria de este teléfono no responde. Cerrar las otras pestañas de Seamtag e intentar otra vez.
unlock-next-try = { $seconds ->
    [one] Otro intento en 1 segundo.
   *[other] Otro intento en { $seconds } segundos.
  }
unlock-asleep = Bloqueado, porque nadie lo tocó en un rato. La pantalla está como se dejó.
unlock-asleep-other = Aquí espera la pantalla de otra persona. Al desbloquear se pierde lo que dejó a medio escribir.
unlock-old-keys = Llaves que ya no sirven
unlock-old-key = { $count ->
    [one] { $name }: una llave anterior, que ya no sirve. Lo firmado con ella se conserva y se envía: 1 registro.
   *[other] { $name }: una llave anterior, que ya no sirve. Lo firmado con ella se conserva y se envía: { $count } registros.
  }

forgotten = PIN olvidado
forgotten-why = Nadie puede recuperar un PIN: nunca salió de este teléfono. Por eso se da una llave nueva.
forgotten-ask = Pedir una invitación nueva al supervisor o al planificador.
forgotten-enrol = Darse de alta con ella en este teléfono y elegir un PIN nuevo.
forgotten-kept = No se borra nada. Lo firmado queda en este teléfono hasta que se envía, y se envía solo.

pin-change = Cambiar el PIN
pin-changing = Cambiando
pin-change-says = { $name }. Lo firmado queda como está. El PIN nunca sale de este teléfono: en otro teléfono sigue el anterior.
pin-old = PIN anterior
pin-new = PIN nuevo, seis cifras o más
pin-new-again = PIN nuevo otra vez
pin-same = El PIN nuevo es igual al anterior. Elegir otro.
pin-new-differ = Los dos PIN nuevos no son iguales. Escribirlos otra vez.
pin-not-kept = No se pudo guardar el PIN nuevo. Sigue el anterior.
pin-not-changed = { $says } El PIN no cambió.
pin-changed = El PIN cambió. Desde ahora solo el nuevo abre la llave en este teléfono.
pin-changed-badge = El PIN cambió. Desde ahora solo el nuevo y la credencial abren la llave en este teléfono.
pin-done = Listo
pin-whose = Volver y elegir primero el nombre.

badge = Credencial
badge-to = Credencial
badge-since = La credencial abre la llave en este teléfono, desde el { $date }.
badge-none-here = Ninguna credencial abre aún la llave en este teléfono. El taller imprime credenciales; escribir el nombre en una y agregarla aquí.
badge-possession = Quien tenga la credencial y este teléfono puede desbloquearlo. Llevarla puesta, y nunca dejarla con el teléfono.
badge-still-pin = Para firmar se pide el PIN de todos modos.
badge-lost = ¿Credencial perdida? Quitarla aquí, en cada teléfono donde se agregó.
badge-scan = Escanear una credencial
badge-another = Escanear otra credencial
badge-take-off = Quitarla
badge-leave = Dejarla como está
badge-add = Agregar
badge-ask-pin = { $name }: escribir el PIN una vez, y esta credencial abre la llave en este teléfono.
badge-added = La credencial está agregada. El PIN sirve como antes.
badge-taken-off = La credencial está quitada. En este teléfono ya no abre nada; el PIN sí.
badge-not-kept = No se pudo guardar la credencial: la memoria de este teléfono está llena o falla. Liberar espacio e intentar otra vez.
badge-is-none = Este código no es de una credencial. Mantener la credencial dentro del marco.
badge-opens-nothing = Esta credencial no abre ninguna llave en este teléfono. Nunca se agregó aquí, o se quitó. Volver y desbloquear con el PIN, y agregarla en “Credencial”.
badge-of-another = Esta credencial ya abre la llave de { $name }. Tomar una propia.

enrol = Dar de alta este teléfono
enrol-says = Escanear o escribir la invitación recibida, y elegir un PIN de seis cifras o más. El PIN queda en este teléfono: el servidor nunca lo conoce.
enrol-scan = Escanear la invitación
enrol-scan-another = Escanear otra invitación
enrol-stop-scanning = Mejor escribirla
enrol-no-invitation = Este código no es de una invitación. Una invitación tiene doce símbolos en cuatro grupos; una etiqueta o una credencial no lo es.
enrol-elsewhere = Esta invitación nombra el servidor { $host }, y esta aplicación es de { $here }. Si aquí no se conoce, abrir la dirección del otro.
enrol-invitation = Invitación
enrol-do = Dar de alta
enrol-busy = Haciendo la llave
enrol-needs-network = { $says } La primera vez hace falta red; después ya no.
enrol-not-kept = No se pudo guardar la llave en este teléfono. Pedir una invitación nueva e intentar otra vez.

## Unsent

unsent = Sin enviar
unsent-none = Todo lo registrado en este teléfono está en el servidor.
unsent-wait = { $count ->
    [one] espera en este teléfono
   *[other] esperan en este teléfono
  }
unsent-records = Registros
unsent-photos = Fotos
unsent-oldest = El más antiguo
unsent-progress = Enviado hasta ahora
unsent-gone = Enviados { $gone } de { $whole }
unsent-trouble = { $says } Todo está guardado en este teléfono y se envía solo.
unsent-heard = Contacto con el servidor: { $time }
unsent-not-heard = Aún sin contacto con el servidor.
unsent-send = Enviar ahora
unsent-sending = Enviando
unsent-restored = El servidor se restauró de un respaldo; este teléfono lo notó ({ $time }). Lo que había hecho se puso otra vez en espera de envío: { $records ->
    [one] 1 registro
   *[other] { $records } registros
  } y { $photos ->
    [one] 1 foto
   *[other] { $photos } fotos
  }.
unsent-line = { $type } en { $place }
unsent-title-unreadable = El servidor no los da por buenos
unsent-says-unreadable = Quedan aquí y se intenta otra vez cada diez minutos. Decirlo al supervisor.
unsent-title-refused = No admitidos
unsent-says-refused = No cuentan, ni aquí ni en el servidor. El servidor los guarda; un supervisor los ve, con el motivo.
unsent-title-missing = Ya no están en el servidor
unsent-says-missing = Hechos en otros teléfonos y perdidos al restaurar el servidor. No cuentan hasta que estén ahí otra vez: sus propios teléfonos los envían, y el archivo de aquí también los lleva.
unsent-title-photos-refused = Fotos que el servidor no admitió
unsent-says-photos-refused = Se guardan aquí, y se intenta otra vez cada diez minutos.
unsent-title-photos-not-shown = Fotos que no se pueden mostrar
unsent-says-photos-not-shown = El servidor las tiene como están.
unsent-room = Espacio en este teléfono
unsent-room-left = Antes de que falte memoria caben más o menos { $photos } fotos más, o { $records } registros.
unsent-room-unknown = Este navegador no dice cuánto espacio hay. Una foto ocupa más o menos medio megabyte.
unsent-no-room = En este teléfono no cabe otra foto.
unsent-short = { $count ->
    [one] En este teléfono cabe más o menos 1 foto más.
   *[other] En este teléfono caben más o menos { $count } fotos más.
  }
unsent-make-room = Las fotos que ya están en el servidor y en su respaldo se borran de aquí solas; lo que falta enviar, nunca. Enviar, o guardar en un archivo, y liberar espacio en el teléfono.
unsent-kept = Este navegador prometió conservar lo que hay aquí.
unsent-not-kept = Este navegador no prometió conservar los datos. Instalar la aplicación y enviar con frecuencia.

file-busy = Guardando
file-none = No se hizo ningún archivo. { $says }
file-made = El archivo lleva { $records ->
    [one] 1 registro
   *[other] { $records } registros
  } y { $photos ->
    [one] 1 foto
   *[other] { $photos } fotos
  }. Llevarlo a la oficina: ahí lo recibe el servidor. Todo queda en este teléfono, y se envía solo de todos modos.
file-share = Compartir el archivo

## Weld pass

weld-layer = Capa
weld-welder = Soldador
weld-welder-other = Otro soldador
weld-who = ¿Quién soldó este cordón?
weld-procedure = Procedimiento
weld-procedure-card = Procedimiento { $id }
weld-procedure-other = Otro procedimiento
weld-procedure-line = { $process }, posiciones { $positions }
weld-procedure-decides = Deciden el procedimiento escrito y la edición vigente del código. Solo suelda personal calificado, según las reglas del taller.
weld-process-revision = { $process }, revisión { $revision }
weld-which-procedure = ¿Qué procedimiento?
weld-positions = Posiciones
weld-thickness = Espesor
weld-heat-input = Aporte térmico
weld-fillers = Material de aporte
weld-no-range = sin rango
weld-read = leído: { $value }
weld-sign-in = dentro
weld-sign-out = fuera
weld-sign-none = no es número
weld-said = { $value }: { $sign }
weld-stamp = Estampa
weld-lot = Lote de aporte
weld-log = Registrar cordón
weld-missing = Falta: { $what }.
weld-fault = { $value }: { $fault }
weld-photo = Foto del cordón terminado
weld-photo-short = Foto del cordón
weld-logged = Guardado en este teléfono: cordón { $layer }, { $name }, estampa { $stamp }.
weld-another = Registrar otro cordón
weld-check-open = Verificar: amperaje, voltaje, avance
weld-check = Verificación puntual
weld-check-by = Verificación puntual por { $procedure }
weld-check-next = Sigue
weld-check-done = Listo
weld-energy = Energía de arco
weld-energy-bare = sin eficiencia
weld-part = Parte de la junta, posición
weld-from = Desde
weld-to = Hasta
weld-position = Posición
weld-qualified = Calificado: { $process }, { $test }, cualquier espesor, hasta el { $until }
weld-qualified-to = Calificado: { $process }, { $test }, hasta { $most } in, vigente hasta el { $until }
weld-not-qualified = No calificado para este cordón: { $name }: { $reason }.
weld-not-qualified-next = El cordón se puede registrar; queda con alerta y lo ve un supervisor.
weld-lapses-soon = { $count ->
    [0] { $name }: la calificación para { $process } vence hoy.
    [one] { $name }: la calificación para { $process } vence mañana, { $lapses }, si no se registra un cordón con ella o se demuestra en papel.
   *[other] { $name }: la calificación para { $process } vence el { $lapses }, en { $count } días, si no se registra un cordón con ella o se demuestra en papel.
}

weld-value-preheat = precalentamiento
weld-value-interpass = entre pasadas
weld-value-volts = voltaje
weld-value-amps = amperaje
weld-value-travel = avance
weld-value-arc-energy = energía de arco

position-f = plana
position-h = horizontal
position-v = vertical
position-o = sobrecabeza

weld-test-plate-1g = placa 1G
weld-test-plate-2g = placa 2G
weld-test-plate-3g = placa 3G
weld-test-plate-4g = placa 4G
weld-test-plate-3g-4g = placa 3G+4G
weld-test-plate-2g-3g-4g = placa 2G+3G+4G
weld-test-pipe-1g = tubo 1G
weld-test-pipe-2g = tubo 2G
weld-test-pipe-5g = tubo 5G
weld-test-pipe-6g = tubo 6G
weld-test-pipe-2g-5g = tubo 2G+5G

## The office: plans

office-drop = Elegir un archivo, o soltarlo aquí.
office-offline = { $says } La oficina necesita el servidor; lo registrado está a salvo.
office-faults = { $count ->
    [one] { $name } tiene 1 error. No se admitió nada.
   *[other] { $name } tiene { $count } errores. No se admitió nada.
  }
plans = Planes
plans-none = Aún no hay ningún plan publicado. Tomar la plantilla, llenarla y traerla aquí.
plans-plan = Plan
plans-revision = Revisión
plans-jobs = Órdenes evaluadas con él
plans-out = Descargar
plans-compare = comparar con la anterior
plans-import = Un plan en libro de cálculo (XLSX) o YAML
plans-template = Plantilla para empezar
plans-reading = Leyendo el archivo
plans-sound = { $title }: { $steps } pasos, { $items } ítems, sin errores. Una revisión publicada nunca cambia; una orden conserva la que tiene hasta que se pasa a otra.
plans-publish = Publicar
plans-same = No hay diferencias.
plans-place = Dónde
plans-field = Qué
plans-itself = el plan mismo
plans-new = nuevo
plans-gone = quitado
plans-of-revision = Revisión { $revision }
plans-changed = { $count ->
    [one] 1 cambio sin publicar
   *[other] { $count } cambios sin publicar
  }
plans-nothing-changed = No hay cambios
plans-publish-next = Publicar como revisión siguiente
plans-figures-of = Límites con los datos de la orden
plans-outline = Pasos e ítems
plans-up = Subir
plans-down = Bajar
plans-add-item = Agregar un ítem
plans-take-out = Quitar
plans-new-item = Ítem nuevo
plans-no-limit = se registra, sin límite
plans-lines = Puntos, en orden: 'maker sign welder', 'QC H not maker', 'AI W'. No antes de: 'plate_cut, receipt of joins', 'earlier of job'. Lugares de un ítem: 'clock 4', 'numbered 3', 'names left 0; left 90', 'least 10 hole'.
plans-add-step = Agregar un paso
plans-new-step = Paso nuevo
plans-not-recorder = Nadie decide sobre un hallazgo que registró, o soldó, por sí mismo

plan-field-name = Nombre
plan-field-code = Código
plan-field-kind = Tipo
plan-field-uom = Unidad de medida
plan-field-where = Dónde
plan-field-lower = Límite inferior
plan-field-upper = Límite superior
plan-field-nominal = Valor nominal
plan-field-tolerance = Tolerancia a ambos lados
plan-field-plus = Más
plan-field-minus = Menos
plan-field-formula = Se calcula como
plan-field-only-if = Se pide solo si
plan-field-thickness = Espesor del metal de soldadura
plan-field-binds = Exigido por
plan-field-rule = Regla
plan-field-gauge = Tipo de instrumento
plan-field-photo = Foto
plan-field-place = Redondeado a
plan-field-source = Fuente
plan-field-note = Nota
plan-field-number = Número
plan-field-stage = Etapa
plan-field-kinds = Tipos de pieza, uno por línea
plan-field-cautions = Precauciones, una por línea
plan-field-points = Quién firma, uno por línea
plan-field-not-before = No antes de, uno por línea
plan-field-stations = Lugares

## The office: tags

tags-title = Etiquetas de la orden { $job }
tags-off = Etiquetas retiradas
tags-off-none = { $back ->
    [0] Ninguna etiqueta está fuera de su pieza.
    [one] Ninguna etiqueta está fuera de su pieza. 1 se retiró y se colocó de nuevo.
   *[other] Ninguna etiqueta está fuera de su pieza. { $back } se retiraron y se colocaron de nuevo.
  }
tags-off-count = { $count ->
    [one] 1 etiqueta no ha vuelto a su pieza.
   *[other] { $count } etiquetas no han vuelto a sus piezas.
  }
tags-off-back = { $count ->
    [0] Aún no se ha colocado de nuevo ninguna.
    [one] 1 está colocada de nuevo.
   *[other] { $count } están colocadas de nuevo.
  }
tags-off-heat = Retiradas por calor, { $count }: { $marks }
tags-off-blast = Retiradas por granallado, { $count }: { $marks }
tags-off-other = Retiradas sin motivo dado, { $count }: { $marks }
tags-pieces = Para qué piezas
tags-new = Nuevas: { $count }
tags-new-means = Piezas cuya etiqueta nadie ha colocado aún. Aquí no se sabe si ya se imprimió antes.
tags-all = Todas las de la orden: { $count }
tags-stage = Las de una etapa: { $count }
tags-which-stage = Etapa
tags-ticked = Las marcadas en la lista: { $count }
tags-labels = Etiquetas para imprimir
tags-print-on = Imprimir en
tags-sheet = { $paper }, { $columns } × { $rows } de { $width } × { $height } mm
tags-single = una por página, { $width } × { $height } mm
tags-single-inch = una por página, { $width } × { $height } in
tags-start = Primera etiqueta por imprimir, 1 a { $most }
tags-start-wrong = Esta hoja tiene las etiquetas 1 a { $most }. Dar el número de la primera que todavía queda.
tags-picture = La hoja; se empieza a imprimir en la etiqueta { $start }
tags-cuts = Marcas de corte, para papel común
tags-make-pdf = Hacer el PDF
tags-made-pdf = { $count ->
    [one] 1 etiqueta en 1 página.
   *[other] { $count } etiquetas, { $pages ->
        [one] 1 página
       *[other] { $pages } páginas
      }.
  }
tags-none-chosen = No se eligió ninguna pieza.
tags-true-size = Imprimir a tamaño real (100 %), sin ajustar a la página: una etiqueta reducida es más difícil de escanear.
tags-board = Tablero de la orden (PNG)
tags-stickers = Calcomanías de todos los instrumentos (PDF)
tags-steel = Etiquetas de acero, marcadas con láser
tags-steel-means = Para etiquetas de acero inoxidable con alambre. Los dibujos son trazos simples a tamaño real: lo negro se marca, lo rojo se corta.
tags-plate = Placa
tags-plate-size = { $width } × { $height } mm, agujero { $hole } mm
tags-make-svg = Hacer los SVG
tags-made-svg = { $count ->
    [one] 1 archivo en un ZIP.
   *[other] { $count } archivos en un ZIP.
  }
tags-list = { $count ->
    [one] 1 pieza
   *[other] { $count } piezas
  }
tags-find = Buscar una marca, un tipo o un código
tags-tick-all = Marcar todas las encontradas: { $count }
tags-mark = Pieza
tags-code = Código
tags-where = Dónde está la etiqueta
tags-no-code = sin código
tags-former = fuera de uso: { $codes }
tags-replace = Reemplazar código
tags-replace-of = Reemplazar el código de { $mark }
tags-replace-means = { $code } queda fuera de uso para siempre, y al escanearlo se avisa. La pieza recibe un código nuevo, cuya etiqueta hay que imprimir y colocar. Si solo se dañó la etiqueta, imprimirla otra vez: el código queda.
tags-replace-why = Por qué: perdida, robada, en otra pieza
tags-replace-now = Dejar { $code } fuera de uso

## The office: jobs

work-board = Órdenes, etapa por etapa

board-flagged = con alerta
board-blocked = en espera
board-complete = por firmar
board-open = por hacer
board-released = liberada(s)

verdict-not-in-the-plan = no está en el plan
signing-not-in-the-plan = no está en el plan

jobs = Órdenes
jobs-ways = Qué se puede hacer
jobs-new = Orden nueva
jobs-shown = Órdenes mostradas
jobs-all = Todas las abiertas
jobs-waits-for = Falta que firme { $party }: { $count }
jobs-none-open = No hay ninguna orden abierta. Un planificador abre una con un plan y una lista de sus piezas.
jobs-none-wait = En ninguna orden falta que firme { $party }.
jobs-by-plan = Plan { $plan }
jobs-job = Orden
jobs-pieces-plan = { $count ->
    [one] 1 pieza
   *[other] { $count } piezas
  }, plan { $plan } revisión { $revision }
jobs-nothing-asked = no se pide nada
jobs-list-title = { $title }: { $count }
jobs-piece = Pieza
jobs-step = Paso
jobs-party = Falta que firme
jobs-since = Desde
jobs-more = { $count ->
    [one] y 1 más
   *[other] y { $count } más
  }
jobs-waits = Falta una firma
jobs-no-waits = Nada espera una firma.
jobs-blocked = Detenido por una firma de otro paso
jobs-no-blocked = Nada está detenido por una firma de otro paso.
jobs-let-go = Quién puede liberarlo
jobs-let-go-by = { $party }: { $mark }, { $number } { $step }
jobs-reports = Informes pedidos
jobs-no-reports = No hay informes por llegar.
jobs-report = Informe
jobs-asked-on = Pedido
jobs-overdue = { $days ->
    [one] más de 1 día
   *[other] más de { $days } días
  }
jobs-reports-in = { $count ->
    [one] Ya llegó 1 informe.
   *[other] Ya llegaron { $count } informes.
  }
jobs-closed = Órdenes cerradas
jobs-plan-named = { $code } revisión { $revision }: { $title }
jobs-figure-of = { $name }, { $what }, { $uom }
jobs-was = (antes { $value })

new-job = Una orden nueva
new-job-no-plan = Aún no hay ningún plan publicado. Una orden necesita uno: traer primero un plan.
new-job-number = Número de orden
new-job-title = Título
new-job-plan = Plan
new-job-figures = Datos
new-job-take-figures = Empezar con los datos de
new-job-take-none = ninguna otra orden
new-job-drawings = Planos
new-job-drawings-how = Hoja y revisión, una por línea: 1 B
new-job-typed = Lo escrito
new-job-check = Revisar
new-job-open = Abrir la orden
new-job-sending = Enviando
new-job-working = El servidor lo está leyendo

found-stale = Algo cambió desde entonces. Revisar otra vez.
found-sound = { $count ->
    [one] 1 pieza, sin errores.
   *[other] { $count } piezas, sin errores.
  } Se puede abrir.
found-advice = { $count ->
    [one] 1 punto por mirar. No impide nada.
   *[other] { $count } puntos por mirar. No impiden nada.
  }
found-pieces = { $count ->
    [one] La pieza como se leyó
   *[other] Las { $count } piezas como se leyeron
  }

piece-list = Piezas
piece-list-file = Una lista de las piezas (XLSX o CSV)
piece-list-template = Una lista vacía para este plan
piece-list-from = Las piezas vienen de { $name }.
piece-list-type-instead = Escribir las piezas
piece-list-typed = O escribirlas, una fila por pieza; varias marcas, separadas con comas
piece-list-cell = { $column }, fila { $row }
piece-list-mark = Marca
piece-list-kind = Tipo
piece-list-name = Nombre
piece-list-part-of = Parte de
piece-list-joins = Une
piece-list-figures = Datos
piece-list-sheet = Hoja
piece-list-place = Lugar de la etiqueta
piece-list-more = Más

job-page-closed = cerrada
job-page-tags = Imprimir etiquetas
job-page-floor = La orden como se ve en el taller
job-page-close = Cerrar la orden
job-page-reopen = Abrir la orden otra vez
job-page-close-means = Los teléfonos ya no llevan una orden cerrada. Sus registros quedan, y se puede abrir otra vez.
job-page-close-now = Cerrar la orden { $job }
job-page-judged-by = Con qué se evalúa
job-page-plan = Plan { $code } revisión { $revision }
job-page-drawings = planos { $drawings }
job-page-figures = { $count ->
    [one] 1 dato
   *[other] { $count } datos
  }
job-page-pieces = Piezas: { $count }
job-page-find = Buscar por marca, tipo o nombre
job-page-take-out = Descargar la lista en libro de cálculo
job-page-material = material
job-page-remade = hecha de nuevo como { $mark }
job-page-remake = Hacerla de nuevo
job-page-remade-as = La pieza nueva es { $mark }. Imprimir su etiqueta.
job-page-joints-moved = Ahora la une: { $marks }.
job-page-joints-left = Ya hay registros de: { $marks }. Lo unido queda como se hizo. Pedir que también se deseche y se haga de nuevo.
job-page-add = Agregar piezas de una lista (XLSX o CSV)
job-page-added = { $count ->
    [one] Se agregó 1 pieza. Imprimir su etiqueta.
   *[other] Se agregaron { $count } piezas. Imprimir sus etiquetas.
  }
job-page-changes = Cambios de plan, datos y planos
job-page-change = { $number }. Plan { $plan }.

job-change = Cambiar plan, datos o planos
job-change-means = Desde entonces la orden { $job } se evalúa con lo que está aquí. Nada cambia antes de ver lo que se deshace.
job-change-plan = Revisión del plan
job-change-look = Ver qué desharía
job-change-working = Calculando
job-change-nothing = No se toca nada de lo registrado o firmado.
job-change-counts = { $releases ->
    [one] Se pierde 1 liberación
   *[other] Se pierden { $releases } liberaciones
  }; { $records ->
    [one] 1 registro ya no cuenta
   *[other] { $records } registros ya no cuentan
  }, { $verdicts } con otro resultado; { $steps ->
    [one] 1 paso se pide otra vez.
   *[other] { $steps } pasos se piden otra vez.
  }
job-change-releases = Liberaciones perdidas
job-change-signed-by = Firmado por
job-change-why = Después del cambio
job-change-not-valid = no es válida: { $reason }
job-change-verdicts = Registros que ya no cuentan
job-change-record = Registrado
job-change-before-after = Antes y después
job-change-same = { $verdict } con ambos; se debe registrar otra vez
job-change-turns = { $before } → { $after }
job-change-again = Pasos que se piden otra vez
job-change-reason = Por qué, y por orden de quién
job-change-make = Cambiar la orden { $job }

trace = Rastreo de material
trace-number = Número de colada o de lote
trace-find = Buscar
trace-how = No importan espacios ni mayúsculas. Lo tachado también se muestra.
trace-looking = Buscando
trace-none = Ningún registro nombra { $heat }.
trace-found = { $count ->
    [one] { $heat }: 1 lugar
   *[other] { $heat }: { $count } lugares
  }
trace-records = { $count ->
    [one] 1 registro
   *[other] { $count } registros, el más nuevo
  }
trace-into = Está en
trace-part-of = es parte de ella
trace-joined-by = la une
trace-in-piece = Números en { $mark } de la orden { $job }
trace-nothing-in = No hay número de colada ni de lote registrado para esta pieza o sus partes.
trace-itself = esta pieza
trace-a-part = una parte de ella
trace-joined = unida por ella
trace-a-joint = una junta de ella
trace-filler = el aporte con que se soldó
trace-welded-with = soldada con él
trace-another = Buscar otro número

## The weld map: a drawing with the pieces of a job pinned on it

map-title = Mapa de soldaduras de la orden { $job }
map-open = Mapa de soldaduras
map-none = En este teléfono no hay plano de la orden { $job }. La oficina lo pone; llega mientras haya red.
map-sheets = Hojas
map-sheet = Hoja { $sheet }
map-revision = revisión { $revision }
map-drawing = Hoja { $sheet }, { $title }
map-not-here = La imagen de esta hoja todavía no está en este teléfono. Abra el mapa una vez con red, y queda guardada. Mientras tanto, elija en la lista.
map-try-again = Intentar otra vez
map-smaller = Más pequeño
map-larger = Más grande
map-crowded = { $count ->
    [one] 1 punto está demasiado cerca de otro para tocarlo. Agrande el plano, o elija en la lista.
   *[other] { $count } puntos están demasiado cerca de otros para tocarlos. Agrande el plano, o elija en la lista.
  }
map-pinned = { $count ->
    [one] 1 pieza señalada en ella
   *[other] { $count } piezas señaladas en ella
  }

## The office: people, welding procedures, gauges

due-overdue = vencido
due-due-soon = vence pronto
due-in-date = vigente
due-no-day = sin fecha conocida

office = Oficina
office-jobs-means = Etapa por etapa: qué espera a quién, y qué está detenido.
office-new-job-means = De un plan y una lista de sus piezas.
office-plans-means = Qué se inspecciona, en qué orden y con qué límites.
office-people-means = Funciones, teléfonos, invitaciones y calificaciones de los soldadores.
office-procedures-means = Los rangos con los que se comparan los cordones.
office-gauges-means = Certificados, qué vence, y qué tocó un instrumento dudoso.
office-trends-means = Cómo van los valores uno tras otro, de quién son, y si se cumple la tolerancia.
office-tags-means = Las etiquetas de una orden se imprimen desde su página.
office-keep = Guardar
office-leave = Dejar
office-kept = { $what }: guardado.
office-choose = elegir
office-none = ninguno
office-needed = { $label } *
office-needed-means = Los campos con * son obligatorios.

gauges = Instrumentos
gauges-none = Todavía no hay ningún instrumento. Agregue el primero con lo que dice su certificado.
gauges-count = { $overdue ->
    [0] Ningún instrumento está vencido.
    [one] 1 instrumento está vencido.
   *[other] { $overdue } instrumentos están vencidos.
  } { $soon ->
    [0] Ninguno vence en los próximos 30 días.
    [one] 1 vence en los próximos 30 días.
   *[other] { $soon } vencen en los próximos 30 días.
  }
gauges-add = Agregar un instrumento
gauges-gauge = Instrumento
gauges-u = U (k = 2)
gauges-u-unknown = no se sabe
gauges-certificate = Certificado
gauges-calibrated = Calibrado
gauges-due = Vence
gauges-stands = Estado
gauges-days = { $count ->
    [0] hoy
    [one] en 1 día
   *[other] en { $count } días
  }
gauges-days-over = { $count ->
    [one] hace 1 día
   *[other] hace { $count } días
  }
gauges-renew = Nuevo certificado
gauges-renew-of = Nuevo certificado de { $id }
gauges-doubt = Golpeado o fuera
gauges-doubt-of = Golpeado o fuera: { $id }
gauges-new = Un instrumento nuevo
gauges-field-id = Número en el instrumento
gauges-field-kind = Tipo, como lo nombran los planes
gauges-field-name = Nombre
gauges-field-uom = Unidad de medida
gauges-field-uncertainty = Incertidumbre expandida U, k = 2
gauges-field-certificate = Número del certificado
gauges-field-calibrated = Calibrado el
gauges-field-due = Último día de uso
gauges-there = Ya hay un instrumento { $id }. Renueve su certificado en la lista.
gauges-judged-anew = Las lecturas con este instrumento se juzgan de nuevo con la U y el último día que están aquí.
gauge-doubt = Instrumento { $id }: qué lecturas toca
gauge-doubt-how = Si se cayó, ponga ese día. Si se encontró fuera de tolerancia, ponga el último día en que se sabía bueno.
gauge-doubt-since = En duda desde
gauge-doubt-find = Ver las lecturas
gauge-doubt-count = { $count ->
    [0] Ninguna lectura con { $id } desde { $day }.
    [one] 1 lectura con { $id } desde { $day }.
   *[other] { $count } lecturas con { $id } desde { $day }.
  }
gauge-doubt-decides = Esta lista no juzga nada de nuevo. El supervisor decide sobre cada lectura: ábrala, y mida otra vez o escriba allí una nota.
gauge-doubt-shown = Solo se muestran las { $count } más recientes. Elija un día posterior, y después los días anteriores.
gauge-doubt-item = Ítem
gauge-doubt-station = Lugar
gauge-doubt-value = Valor
gauge-doubt-by = Por
gauge-doubt-when = Cuándo
gauge-doubt-verdict = Resultado

procedures = Procedimientos de soldadura
procedures-none = Todavía no hay ningún procedimiento de soldadura. Agregue lo que dicen los procedimientos escritos del taller.
procedures-decide = Deciden el procedimiento escrito y la edición vigente del código. Lo que está aquí solo sirve para comparar los cordones registrados.
procedures-add = Agregar un procedimiento
procedures-procedure = Procedimiento
procedures-ranges = Rangos
procedures-state = En uso
procedures-in-use = en uso
procedures-withdrawn = retirado desde { $day }
procedures-will-go = en uso hasta que se retire el { $day }
procedures-revision = revisión { $revision }
procedures-range = { $name }: de { $range }
procedures-replace = Nueva revisión
procedures-replace-of = Nueva revisión de { $id }
procedures-withdraw = Retirar
procedures-withdraw-of = Retirar { $id }
procedures-withdraw-on = Retirado desde este día
procedures-withdraw-means = Los cordones soldados antes de ese día conservan su resultado. Los posteriores con { $id } no se juzgan.
procedures-back = Volver a usar
procedures-back-of = Volver a usar: { $id }
procedures-new = Un procedimiento nuevo
procedures-there = Ya hay un procedimiento { $id }. Haga en la lista una nueva revisión de él.
procedures-judged-anew = Una nueva revisión con el mismo número juzga también los cordones ya registrados con él. Si deben quedar como están, agréguela con un número propio y retire la anterior.
procedure-field-id = Número
procedure-field-revision = Revisión
procedure-field-name = Nombre
procedure-field-process = Proceso
procedure-field-positions = Posiciones
procedure-field-thickness-from = Espesor desde, in
procedure-field-thickness-to = Espesor hasta, in
procedure-field-preheat-min = Precalentamiento mínimo, °F
procedure-field-interpass-max = Entre pasadas, máximo, °F
procedure-field-volts-from = Voltios desde
procedure-field-volts-to = Voltios hasta
procedure-field-amps-from = Amperios desde
procedure-field-amps-to = Amperios hasta
procedure-field-travel-from = Avance desde, in/min
procedure-field-travel-to = Avance hasta, in/min
procedure-field-heat-input-max = Aporte térmico máximo, kJ/in
procedure-field-fillers = Metales de aporte, uno por línea
procedure-field-note = Nota
procedure-field-source = Fuente

people = Personas
people-add = Incorporar a alguien
people-person = Persona
people-roles = Funciones
people-stamp = Estampa
people-phones = Teléfonos
people-no-role = sin función
people-no-phone = ninguno inscrito
people-phone-heard = última señal { $time }
people-phone-never = inscrito, todavía sin señal
people-phone-waiting = { $count ->
    [one] allí espera 1 registro
   *[other] allí esperan { $count } registros
  }
people-phone-shut = excluido
people-change = Cambiar
people-change-of = Cambiar a { $name }
people-invite = Invitar
people-invite-of = Invitar a { $name }
people-invited = Invitación para { $name }
people-invited-how = Se muestra una sola vez. { $name } la escanea con el teléfono, o escribe el código en { $address }. Sirve hasta { $until }.
people-invited-symbol = La invitación para escanear
people-new = Alguien nuevo
people-field-id = Nombre corto, queda para siempre
people-field-name = Nombre
people-field-roles = Funciones
people-field-stamp = Estampa, como se golpea junto a las soldaduras
people-field-commission = Número de comisión
people-field-stands-in-for = Suplente de
people-supervisor-only = Solo un supervisor da las funciones de supervisor, ingeniero, inspector autorizado y cliente, o cambia quién las tiene.
people-leaves = Quien se va no conserva ninguna función. Lo que registró y firmó queda.
people-there = Aquí ya hay alguien con el nombre corto { $id }. Cámbielo en la lista.
people-inspectors = Inspectores autorizados
people-inspectors-none = No hay ningún inspector autorizado.
people-no-commission = no se indicó
people-nobody = nadie

qualified = Calificaciones de los fabricantes
qualified-soon = Vencen en 30 días, o ya vencieron
qualified-none-soon = Ninguna calificación vence en los próximos 30 días.
qualified-none = Todavía no hay ninguna calificación.
qualified-decides = La calificación la demuestra el taller con sus propios registros y la edición vigente del código.
qualified-who = Persona
qualified-process = Proceso
qualified-last = Última prueba
qualified-lapses = Vence
qualified-lapsed = vencida
qualified-lapses-soon = vence pronto
qualified-holds = vigente
qualified-held = Ensayos
qualified-test = Ensayo
qualified-coupon = Probeta, in
qualified-of-coupon = { $coupon }, { $layers ->
    [one] 1 capa
   *[other] { $layers } capas
  }
qualified-of-pipe = { $coupon }, { $od } exterior, { $layers ->
    [one] 1 capa
   *[other] { $layers } capas
  }
qualified-tested = Ensayado
qualified-continued = Continuada
qualified-add = Agregar una calificación
qualified-new = Una calificación nueva
qualified-renew = Continuada
qualified-renew-of = Continuada: { $id } de { $name }
qualified-there = Ya hay una calificación { $id }. Ponga su prueba en la lista.
qualified-field-id = Número
qualified-field-person = Persona
qualified-field-process = Proceso
qualified-field-test = Ensayo y posición
qualified-field-coupon = Espesor de la probeta, in
qualified-field-layers = Capas soldadas
qualified-field-coupon-od = Diámetro exterior de la probeta de tubo, in
qualified-field-tested = Ensayado el
qualified-field-certificate = Número del certificado
qualified-field-continued = Última prueba en papel de que soldó con él

## The office: drawings, with pieces pinned on them

drawing-open = Mapa de soldaduras
drawing-who = Un planificador o un ingeniero pone las hojas y los puntos.
drawing-none = Esta orden todavía no tiene plano. Ponga uno abajo y señale en él sus piezas: los teléfonos lo muestran como mapa de soldaduras.
drawing-put-in = Poner una hoja, o su próxima revisión
drawing-sheet = Hoja
drawing-revision = Revisión
drawing-title = Título
drawing-file = Imagen de la hoja (PNG, JPEG o PDF)
drawing-chosen = Elegido: { $name }
drawing-page = Página del PDF
drawing-replaces = { $count ->
    [one] La hoja { $sheet } ya está. Esta imagen ocupa su lugar, y su único punto queda donde está: revíselo después.
   *[other] La hoja { $sheet } ya está. Esta imagen ocupa su lugar, y sus { $count } puntos quedan donde están: revíselos después.
  }
drawing-put-in-now = Ponerla
drawing-sending = Enviando la imagen
drawing-pins = Puntos
drawing-piece = Pieza
drawing-not-pinned = Sin señalar
drawing-pinned = Señaladas
drawing-pinned-now = { $piece } · señalada, sin guardar
drawing-taken-now = { $piece } · quitada, sin guardar
drawing-about = Hoja { $sheet } { $revision } · { $title }
drawing-choose = Elija una pieza y haga clic en su lugar en la hoja.
drawing-how = Haga clic en el lugar de { $mark } en la hoja. O vaya a la hoja con Tab: las flechas mueven el punto 1 %, con Mayús 0.1 %.
drawing-keys = Con el teclado: la primera flecha pone el punto en el centro de la hoja.
drawing-at = { $x } % desde la izquierda, { $y } % desde arriba
drawing-take-away = Quitar este punto
drawing-save = Guardar los puntos
drawing-not-saved = Sin guardar.
drawing-saved = { $count ->
    [one] 1 punto, guardado
   *[other] { $count } puntos, guardados
  }

## Trends: an item's values together, shares flagged, the study of a gauge

trend-why-no-values = no hay ningún valor
trend-why-one-value = hay un solo valor
trend-why-no-spread = todos los valores son iguales
trend-why-no-spread-in-the-baseline = los valores del comienzo son todos iguales
trend-why-values-too-large = hay un valor demasiado grande para calcular
trend-why-limits-on-different-sides = unos valores tienen límite inferior, otros superior o los dos
trend-why-no-limits = el ítem no tiene límites
trend-why-tolerances-differ = las tolerancias de los valores no son igual de anchas
trend-why-no-tolerance = el límite inferior no está por debajo del superior

trend-capable-holds = Cumple la tolerancia.
trend-capable-cannot-hold = Se dispersa demasiado para la tolerancia, aun si estuviera centrado.
trend-capable-off-centre = Espere valores fuera de tolerancia donde está; centrado, la cumpliría.
trend-capable-does-not-hold = Espere valores fuera de tolerancia tal como va ahora.
trend-capable-cannot-say = Estos valores no alcanzan para decir si cumple la tolerancia.

study-tells-the-parts-apart = El instrumento distingue las piezas.
study-tells-the-parts-apart-in-few-classes = El instrumento solo distingue las piezas a grandes rasgos.
study-cannot-tell-the-parts-apart = El instrumento no puede distinguir estas piezas.
study-takes-little-of-the-tolerance = Su propia dispersión ocupa poco de la tolerancia.
study-takes-part-of-the-tolerance = Su propia dispersión ocupa buena parte de la tolerancia: pese lo que depende de él.
study-takes-too-much-of-the-tolerance = Su propia dispersión ocupa demasiado de la tolerancia: no acepte con él.
study-more-of-it-comes-from-the-operators = Más de esa dispersión viene de los operadores que del instrumento: vea cómo miden.
study-more-of-it-comes-from-the-gauge-itself = Más de esa dispersión viene del instrumento que de los operadores.
study-the-operators-read-differently = Los operadores leen distinto, más de lo que explica el azar.
study-the-operators-differ-from-part-to-part = Lo que difieren los operadores cambia de pieza a pieza.

spread-part = piezas
spread-operator = operadores
spread-interaction = operador por pieza
spread-repeatability = repetibilidad (el propio instrumento)
spread-reproducibility = reproducibilidad (los operadores en total)
spread-gauge = instrumento y operadores juntos
spread-total = en total

trends = Tendencias
trends-means = Cómo van los valores de un ítem, uno tras otro, entre sus límites.
trends-offline = { $says } Las tendencias necesitan el servidor.
trends-loading = Buscando los valores
trends-none = Aún no ha llegado ningún valor. Los ítems aparecen aquí con su primera lectura.
trends-search = Buscar ítem, paso o plan
trends-order = Orden
trends-order-look = Primero lo que hay que mirar
trends-order-newest = El valor más nuevo primero
trends-order-step = Por plan y paso
trends-count = { $count ->
    [one] 1 ítem de { $all }
   *[other] { $count } ítems de { $all }
  }
trends-more = { $count ->
    [one] 1 más
   *[other] { $count } más
  }
trends-items = Ítems con valores
trends-values = Valores
trends-column-item = Ítem
trends-column-stands = Cómo está
trends-column-step = Paso
trends-column-plan = Plan de inspección
trends-column-values = Valores
trends-column-newest = Llegó el más nuevo
trends-column-piece = Pieza
trends-column-value = Valor
trends-column-limits = Límites
trends-column-who = Quién
trends-column-gauge = Instrumento
trends-column-measured = Medido
trends-column-mean = Media
trends-column-sd = Dispersión (s)
trends-column-flagged = Con alerta
trends-column-interval = Entre 0 y 100 %
trends-column-change = Cambio
trends-place = { $number } { $step } · plan de inspección { $plan }
trends-stands-drift = las lecturas derivan, alerta abierta
trends-stands-out = { $out } fuera de tolerancia entre los { $count } últimos
trends-printed-item = { $item }, { $number } { $step }, plan de inspección { $plan }
trends-printed-filter = { $filter }: { $value }
trends-printed-at = impreso { $when }
trends-empty = Con lo elegido no queda ningún valor. Elija menos.

trends-says = Lo que dicen los valores
trends-no-control = Sin límites de control: { $why }.
trends-no-rules = No hay ninguna regla elegida, así que no se dice nada de la deriva.
trends-in-control = En control según las reglas elegidas, en { $count } valores.
trends-in-control-few = Ninguna regla salta, pero { $count ->
    [one] 1 valor es
   *[other] { $count } valores son
  } poco para decir si está en control.
trends-out-of-control = Fuera de control: { $rule }, { $ends ->
    [at] en
   *[to] hasta
  } { $place }{ $ago ->
    [0] , el valor más nuevo
    [one] , 1 valor antes del más nuevo
   *[other] , { $ago } valores antes del más nuevo
  }.{ $count ->
    [one] {""}
   *[other] {" "}{ $count } señales en total{ $pieces ->
        [many] {""}
       *[few] : { $pieces }
      }.
  }
trends-flag = { $state ->
    [open] Alerta abierta, { $kind }, en { $place }, orden { $job }: { $reason }.
    [decided] Alerta, { $kind }, en { $place }, orden { $job }: { $reason }. Está decidida, sin hacer aún.
   *[closed] Alerta, { $kind }, en { $place }, orden { $job }: { $reason }. Está cerrada.
  }
trends-flag-go = A la alerta
trends-average-left = Hay deriva: ninguna regla salta, pero la media móvil ha salido de sus límites.
trends-average-beyond = La media móvil está en { $level } { $uom }, fuera de sus límites.
trends-only-recorded = Los valores solo se anotan; ningún límite los juzga.
trends-verdicts = { $out ->
    [0] { $count ->
        [one] El único valor no está fuera de tolerancia.
       *[other] Ninguno de { $count } valores está fuera de tolerancia.
      }
    [one] { $count ->
        [one] El único valor está fuera de tolerancia.
       *[other] 1 de { $count } valores está fuera de tolerancia.
      }
   *[other] { $out } de { $count } valores están fuera de tolerancia.
  }{ $close ->
    [0] {""}
    [one] {" "}1 está demasiado cerca para decidir.
   *[other] {" "}{ $close } están demasiado cerca para decidir.
  }{ $unjudged ->
    [0] {""}
    [one] {" "}1 está sin juzgar.
   *[other] {" "}{ $unjudged } están sin juzgar.
  }
trends-capability = Cp { $cp } (de { $cpLow } a { $cpHigh }), Cpk { $value } (de { $low } a { $high }). { $means }
trends-capability-one = Cpk { $value } (de { $low } a { $high }) al único límite. { $means }
trends-no-capability = No se pueden dar Cp y Cpk: { $why }.
trends-capability-was = Mientras no esté en control, Cp y Cpk dicen lo que fue, no lo que será.
trends-figures = Media { $mean } { $uom }, desviación estándar { $sd }.
trends-small = { $count ->
    [one] 1 valor es poco
   *[other] { $count } valores son pocos
  }: tome todo esto como un indicio.
trends-unit-half = de media tolerancia
trends-placed = Los límites no son iguales para todos los valores, así que cada uno se sitúa entre los suyos: -1 en el inferior, 1 en el superior.
trends-placed-one = Los límites no son iguales para todos los valores, así que cuenta la distancia de cada uno a su propio límite.
trends-baseline = El centro y los límites de control salen de los primeros { $count } de { $all } valores.
trends-baseline-all = El centro y los límites de control salen de los { $count } valores.
trends-related = Los valores vecinos se parecen (correlación { $value }), así que las señales llegan más a menudo que por azar.
trends-older = Solo se miran los { $most } valores más nuevos de { $count }; lo elegido actúa dentro de ellos.
trends-names-left-out = Solo supervisores, planificadores e ingenieros ven la comparación por persona.

trends-filter-job = Orden
trends-filter-gauge = Instrumento
trends-filter-maker = Quién
trends-filter-procedure = Procedimiento de soldadura
trends-filter-kind = Clase de pieza
trends-filter-all = todos
trends-filter-one = { $name } ({ $count })
trends-show = Valores mostrados
trends-show-left = lo que está en vigor
trends-show-found = como se encontró, antes del reorden
trends-rules = { $count ->
    [0] Reglas de rachas: ninguna
    [one] Reglas de rachas: 1
   *[other] Reglas de rachas: { $count }
  }
trends-rules-which = Se marca un punto donde se cumple una de estas
trends-rule-beyond-3 = El punto está a más de 3 sigma del centro.
trends-rule-two-of-three-beyond-2 = De tres seguidos, hasta él, él y otro pasan de 2 sigma por el mismo lado.
trends-rule-four-of-five-beyond-1 = De cinco seguidos, hasta él, él y otros tres pasan de 1 sigma por el mismo lado.
trends-rule-eight-on-one-side = Ocho seguidos, hasta él, están a un lado del centro.
trends-rule-nine-on-one-side = Nueve seguidos, hasta él, están a un lado del centro.
trends-rule-six-rising-or-falling = Seis seguidos, hasta él, suben o bajan sin parar.
trends-rule-fourteen-alternating = Catorce seguidos, hasta él, suben y bajan por turnos.
trends-rule-fifteen-within-1 = Quince seguidos, hasta él, están a menos de 1 sigma del centro.
trends-rule-eight-outside-1 = Ocho seguidos, hasta él, están a más de 1 sigma, a los dos lados.
trends-rule-drift = La media de las últimas lecturas se va hacia un límite, como con una herramienta que se desgasta.
trends-run-beyond-3 = un punto a más de 3 sigma del centro
trends-run-two-of-three-beyond-2 = dos de tres seguidos a más de 2 sigma por el mismo lado
trends-run-four-of-five-beyond-1 = cuatro de cinco seguidos a más de 1 sigma por el mismo lado
trends-run-eight-on-one-side = ocho seguidos a un lado del centro
trends-run-nine-on-one-side = nueve seguidos a un lado del centro
trends-run-six-rising-or-falling = seis seguidos que suben o bajan sin parar
trends-run-fourteen-alternating = catorce seguidos que suben y bajan por turnos
trends-run-fifteen-within-1 = quince seguidos a menos de 1 sigma del centro
trends-run-eight-outside-1 = ocho seguidos a más de 1 sigma, a los dos lados
trends-run-drift = una media que se va hacia un límite
trends-watched = { $count ->
    [0] Nadie vigila esta medida: ninguna regla levanta una alerta.
   *[other] Vigilada: levanta una alerta { $rules }.
  }
trends-watch = Elegir qué levanta una alerta
trends-watched-by = Se levanta una alerta donde se cumple una de estas
trends-watched-what = Para todos, con cada lectura que llega. En una medida en buen estado la deriva sola avisa en falso una vez cada 180 lecturas, más o menos: vigile lo que se desgasta, no todo.
trends-weight = Peso de un valor nuevo en la media
trends-from = Centro y límites de control según
trends-from-first = los primeros 100 valores
trends-from-all = todos los valores mostrados

trends-chart = Gráfico
trends-chart-read = Valor por valor ({ $uom })
trends-chart-placed = Valor por valor, cada uno entre sus límites
trends-chart-label = { $count ->
    [one] Gráfico de 1 valor
   *[other] Gráfico de { $count } valores
  }
trends-chart-how = Pase sobre un punto o tóquelo, o vaya al gráfico con Tab: las flechas van de valor en valor, con Mayús al siguiente marcado; Intro abre su pieza.
trends-as-read = Como se midió
trends-newest = Los { $count } últimos
trends-ranges = Rango móvil: distancia al valor anterior
trends-line-control = control
trends-legend-limits = límites del ítem
trends-legend-limits-are = límites del ítem, { $limits }
trends-legend-centre = centro
trends-legend-control = límites de control, 3 sigma
trends-line-centre = centro
trends-line-mean = media
trends-line-limit = límite
trends-signal = salta una regla
trends-signal-at = { $count ->
    [one] salta una regla
   *[other] saltan { $count } reglas
  }
trends-average = media móvil, peso { $weight }, sus límites punteados
trends-read = { $place } de { $count }: { $value } { $uom }, { $verdict }. { $mark }{ $station ->
    [none] {""}
   *[other] {" "}{ $station }
  }, orden { $job }, { $when }.
trends-read-by = Por { $name }.
trends-read-gauge = Instrumento { $gauge }.
trends-read-marked = Marcado: hasta aquí, { $rule }.
trends-rows = Los { $shown } más nuevos de { $count }, como en el gráfico.

trends-from-where = De dónde vienen
trends-groups-how = La media de cada uno con su intervalo del 95 %; la línea vertical es la media de todos. Elija uno para verlo solo.
trends-all-maker = Todos por { $name }.
trends-all-gauge = Todos con el instrumento { $name }.
trends-all-procedure = Todos en piezas soldadas según { $name }.
trends-all-kind = Clase de pieza de todos: { $name }.
trends-no-groups = No se sabe nada de quién, instrumento, procedimiento o clase.
trends-by-maker = Por persona
trends-by-gauge = Por instrumento
trends-by-procedure = Por procedimiento de soldadura
trends-by-kind = Por clase de pieza
trends-nobody = sin nombre
trends-share = { $flagged } de { $n }
trends-share-interval = de { $low } a { $high }
trends-few = pocos valores

trends-stages = La misma medida, paso a paso
trends-stages-how = { $single ->
    [0] Valores en vigor de la misma pieza y el mismo lugar.
    [one] Valores en vigor de la misma pieza y el mismo lugar. 1 tiene valor en un solo paso y se omite.
   *[other] Valores en vigor de la misma pieza y el mismo lugar. { $single } tienen valor en un solo paso y se omiten.
  }
trends-stages-none = Ninguna pieza tiene aún valores en dos de los pasos.

trends-shares = Proporción con alerta
trends-shares-means = Qué parte de los valores se encontró fuera de tolerancia, demasiado cerca para decidir o sin juzgar. Primero aquellos cuyo intervalo está más alto: una proporción grande de pocos valores puede ser azar.
trends-shares-none = No llegó ningún valor en estos días.
trends-days = En los últimos
trends-days-count = { $count ->
    [one] 1 día
   *[other] { $count } días
  }

trends-study = Estudio de un instrumento
trends-study-means = Dos o más personas miden las mismas piezas, cada una dos veces o más. ¿Qué parte de la dispersión es de las piezas y cuál viene del instrumento y de la mano? No se guarda nada.
trends-study-text = Lecturas, copiadas de una hoja de cálculo
trends-study-example = part	operator	value
trends-study-file = O un archivo con las columnas part, operator, value
trends-study-chosen = Elegido: { $name }
trends-study-drop = Quitarlo
trends-study-tolerance = Tolerancia: límite superior menos inferior (puede faltar)
trends-study-do = Calcular
trends-study-found = Lo que significa
trends-study-size = { $parts } piezas, { $operators } operadores, { $trials } lecturas de cada pieza por cada uno.
trends-study-categories = { $count ->
    [0] No se distingue ninguna clase de piezas; se desean 5.
    [one] Se distingue 1 clase de piezas; se desean 5.
   *[other] Se distinguen { $count } clases de piezas; se desean 5.
  }
trends-study-categories-all = El instrumento no muestra dispersión propia, así que no se pueden contar sus clases.
trends-study-components = De dónde viene la dispersión
trends-study-source = Fuente
trends-study-sd = Desviación estándar
trends-study-contribution = % de la varianza
trends-study-study = % de la dispersión
trends-study-tolerance-share = % de la tolerancia
trends-study-anova = Análisis de varianza
trends-study-pooled = Los operadores no difieren de pieza a pieza más de lo que explica el azar, así que esto cuenta como repetibilidad.
trends-study-squares = Suma de cuadrados
trends-study-degrees = Grados de libertad
trends-study-mean = Cuadrado medio
trends-study-f = F
trends-study-p = p
trends-study-limits = Por debajo del 10 % de la tolerancia el instrumento se tiene por bueno, por encima del 30 % por demasiado basto: práctica común. La regla del taller va primero.
