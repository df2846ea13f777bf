/** The 0.975 quantile of the standard normal distribution: half-width of a two-sided 95 % interval in standard deviations. */
export const normalQuantile975 = 1.959963984540054;
