/** The laws of a rota and the best of all by trying, over more random rotas than `npm test` has minutes for. */
import './rota-brute-force.test.ts';
import './rota-laws.test.ts';
