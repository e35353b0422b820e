import "uplot/dist/uPlot.min.css";
import "./plots.css";
export {};
