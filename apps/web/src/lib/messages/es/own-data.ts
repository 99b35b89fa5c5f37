// Data: what somebody takes along of their own, and what it says when they are erased, in Spanish.
export const ownDataWords = {
  ownData: {
    heading: 'Lo que se sabe de ti',
    text: 'Llévatelo en un solo archivo, para una hoja de cálculo o un programa. No hay nada de otras personas.',
    fetch: 'Bajar mis datos',
    erase: 'Borrarme',
  },
  eraseMe: {
    title: 'Borrarme',
    heading: '¿Quitamos tu nombre de aquí?',
    lead: 'No se puede deshacer. Aquí nadie puede recuperarlo.',
    goes: 'Lo que se va',
    going: [
      'tu nombre y tu dirección',
      'tu entrada, en todos tus aparatos',
      'tus plazas en turnos que vienen; otras personas pueden tomarlas',
      'tus mensajes, tus deseos y tu calendario',
      'las fotos en las que se te nombró, y tus permisos para ellas',
    ],
    stays: 'Lo que se queda',
    staying: [
      'lo que anotaste de las composteras, sin tu nombre',
      'las horas y los pesos en los totales del balance',
      'las copias hechas antes: se van en 90 días',
    ],
    unsent: 'Las notas que aún esperan en un teléfono ya no se guardan. Envíalas antes.',
    who: 'Demuestra que eres tú',
    password: 'Tu contraseña, si tienes',
    code: 'Un código',
    codeHint: 'Con contraseña: las seis cifras de tu segundo paso. Sin ella: un código de coordinación o de tu otro aparato.',
    submit: 'Borrarme para siempre',
    doneTitle: 'Datos borrados',
    doneHeading: 'Tus datos se han borrado.',
    doneLead: 'Gracias por todo lo que hiciste por las lombrices. Las notas que aún esperan en un teléfono se quedan allí y no se guardan.',
  },
} as const;
