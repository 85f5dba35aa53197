export declare const b = 1;
