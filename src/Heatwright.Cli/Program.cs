// SPDX-License-Identifier: Apache-2.0
using Heatwright.Cli;

return HeatwrightCommand.Run(args);
