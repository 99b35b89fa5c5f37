/** The demonstration shows what it promises on a day of every month. */
import '../../seed/demo.test.ts';
