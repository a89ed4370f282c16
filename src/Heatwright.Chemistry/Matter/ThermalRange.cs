// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>
/// One temperature range of a phase set: Cp, H and S by one equation. The range itself does not check its limits;
/// <see cref="PhaseSet"/> does.
/// </summary>
internal sealed class ThermalRange
{
    private readonly ThermalModel _model;
    private readonly double _gasConstant;
    private readonly double[] _c;
    private readonly double[] _powers;

    // Integration constants of the power form, chosen so that H and S are simple sums.
    private readonly double _enthalpyConstant;
    private readonly double _entropyConstant;

    public ThermalRange(ThermalModel model, double fromK, double toK, double[] coefficients, double gasConstant)
    {
        _model = model;
        FromK = fromK;
        ToK = toK;
        _c = coefficients;
        _powers = [];
        _gasConstant = gasConstant;
    }

    public ThermalRange(double fromK, double toK, double[] powers, double[] coefficients, double atK, double enthalpy, double entropy)
    {
        _model = ThermalModel.CpPower;
        FromK = fromK;
        ToK = toK;
        _c = coefficients;
        _powers = powers;
        _enthalpyConstant = enthalpy - PowerEnthalpy(atK);
        _entropyConstant = entropy - PowerEntropy(atK);
    }

    public double FromK { get; }

    public double ToK { get; }

    public double HeatCapacity(double t) => _model switch
    {
        ThermalModel.Nasa9 => _gasConstant
            * ((((_c[0] / t) + _c[1]) / t) + _c[2] + (t * (_c[3] + (t * (_c[4] + (t * (_c[5] + (t * _c[6])))))))),
        ThermalModel.Nasa7 => _gasConstant * (_c[0] + (t * (_c[1] + (t * (_c[2] + (t * (_c[3] + (t * _c[4])))))))),
        ThermalModel.Shomate => ShomateHeatCapacity(t / 1000),
        _ => PowerHeatCapacity(t),
    };

    public double Enthalpy(double t) => _model switch
    {
        ThermalModel.Nasa9 => _gasConstant * ((-_c[0] / t) + (_c[1] * Math.Log(t)) + _c[7]
            + (t * (_c[2] + (t * ((_c[3] / 2) + (t * ((_c[4] / 3) + (t * ((_c[5] / 4) + (t * _c[6] / 5)))))))))),
        ThermalModel.Nasa7 => _gasConstant * (_c[5]
            + (t * (_c[0] + (t * ((_c[1] / 2) + (t * ((_c[2] / 3) + (t * ((_c[3] / 4) + (t * _c[4] / 5)))))))))),
        ThermalModel.Shomate => ShomateEnthalpy(t / 1000),
        _ => _enthalpyConstant + PowerEnthalpy(t),
    };

    public double Entropy(double t) => _model switch
    {
        ThermalModel.Nasa9 => _gasConstant * ((((-_c[0] / (2 * t)) - _c[1]) / t) + (_c[2] * Math.Log(t)) + _c[8]
            + (t * (_c[3] + (t * ((_c[4] / 2) + (t * ((_c[5] / 3) + (t * _c[6] / 4)))))))),
        ThermalModel.Nasa7 => _gasConstant * ((_c[0] * Math.Log(t)) + _c[6]
            + (t * (_c[1] + (t * ((_c[2] / 2) + (t * ((_c[3] / 3) + (t * _c[4] / 4)))))))),
        ThermalModel.Shomate => ShomateEntropy(t / 1000),
        _ => _entropyConstant + PowerEntropy(t),
    };

    private double ShomateHeatCapacity(double t) => _c[0] + (t * (_c[1] + (t * (_c[2] + (t * _c[3]))))) + (_c[4] / (t * t));

    private double ShomateEnthalpy(double t) =>
        1000 * ((t * (_c[0] + (t * ((_c[1] / 2) + (t * ((_c[2] / 3) + (t * _c[3] / 4))))))) - (_c[4] / t) + _c[5]);

    private double ShomateEntropy(double t) =>
        (_c[0] * Math.Log(t)) + (t * (_c[1] + (t * ((_c[2] / 2) + (t * _c[3] / 3))))) - (_c[4] / (2 * t * t)) + _c[6];

    private double PowerHeatCapacity(double t)
    {
        double sum = 0;
        for (int i = 0; i < _c.Length; i++)
        {
            sum += _c[i] * Math.Pow(t, _powers[i]);
        }

        return sum;
    }

    private double PowerEnthalpy(double t)
    {
        double sum = 0;
        for (int i = 0; i < _c.Length; i++)
        {
            sum += _powers[i] == -1 ? _c[i] * Math.Log(t) : _c[i] * Math.Pow(t, _powers[i] + 1) / (_powers[i] + 1);
        }

        return sum;
    }

    private double PowerEntropy(double t)
    {
        double sum = 0;
        for (int i = 0; i < _c.Length; i++)
        {
            sum += _powers[i] == 0 ? _c[i] * Math.Log(t) : _c[i] * Math.Pow(t, _powers[i]) / _powers[i];
        }

        return sum;
    }
}
