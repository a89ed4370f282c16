// SPDX-License-Identifier: Apache-2.0
using static Heatwright.Chemistry.If97Tables;

namespace Heatwright.Chemistry;

/// <summary>The basic equations of regions 1, 2 and 3. Source: IAPWS R7-97(2012), Eqs. 7, 15–17 and 28.</summary>
internal static class If97Regions
{
    public const double R = 461.526;

    /// <summary>Region 1, liquid: γ(π, τ) with π = p/16.53 MPa, τ = 1386 K/T.</summary>
    public static SteamState Region1(double pressurePa, double t)
    {
        const double PStar = 16.53e6;
        double pi = pressurePa / PStar;
        double tau = 1386 / t;
        double a = 7.1 - pi;
        double b = tau - 1.222;
        double g = 0, gp = 0, gpp = 0, gt = 0, gtt = 0, gpt = 0;
        foreach (Term x in Instance.Region1)
        {
            double ai = Math.Pow(a, x.I);
            double bj = Math.Pow(b, x.J);
            double n = x.N * ai * bj;
            g += n;
            gp -= n * x.I / a;
            gpp += n * x.I * (x.I - 1) / (a * a);
            gt += n * x.J / b;
            gtt += n * x.J * (x.J - 1) / (b * b);
            gpt -= n * x.I * x.J / (a * b);
        }

        return FromGibbs(pressurePa, t, pi, tau, g, gp, gpp, gt, gtt, gpt, 1);
    }

    /// <summary>Region 2, vapour: γ = γ° + γʳ with π = p/1 MPa, τ = 540 K/T.</summary>
    public static SteamState Region2(double pressurePa, double t)
    {
        const double PStar = 1e6;
        double pi = pressurePa / PStar;
        double tau = 540 / t;
        double g = Math.Log(pi), gp = 1 / pi, gpp = -1 / (pi * pi), gt = 0, gtt = 0, gpt = 0;
        foreach (Term x in Instance.Region2Ideal)
        {
            double n = x.N * Math.Pow(tau, x.J);
            g += n;
            gt += n * x.J / tau;
            gtt += n * x.J * (x.J - 1) / (tau * tau);
        }

        double b = tau - 0.5;
        foreach (Term x in Instance.Region2Residual)
        {
            double n = x.N * Math.Pow(pi, x.I) * Math.Pow(b, x.J);
            g += n;
            gp += n * x.I / pi;
            gpp += n * x.I * (x.I - 1) / (pi * pi);
            gt += n * x.J / b;
            gtt += n * x.J * (x.J - 1) / (b * b);
            gpt += n * x.I * x.J / (pi * b);
        }

        return FromGibbs(pressurePa, t, pi, tau, g, gp, gpp, gt, gtt, gpt, 2);
    }

    /// <summary>Region 3, around the critical point: φ(δ, τ) with δ = ρ/322 kg/m³, τ = 647.096 K/T.</summary>
    public static SteamState Region3(double density, double t)
    {
        double d = density / Steam.CriticalDensity;
        double tau = Steam.CriticalK / t;
        Term[] terms = Instance.Region3;
        double f = terms[0].N * Math.Log(d), fd = terms[0].N / d, fdd = -terms[0].N / (d * d), ft = 0, ftt = 0, fdt = 0;
        for (int i = 1; i < terms.Length; i++)
        {
            Term x = terms[i];
            double n = x.N * Math.Pow(d, x.I) * Math.Pow(tau, x.J);
            f += n;
            fd += n * x.I / d;
            fdd += n * x.I * (x.I - 1) / (d * d);
            ft += n * x.J / tau;
            ftt += n * x.J * (x.J - 1) / (tau * tau);
            fdt += n * x.I * x.J / (d * tau);
        }

        double rt = R * t;
        double cross = d * fd - (d * tau * fdt);
        double stiffness = (2 * d * fd) + (d * d * fdd);
        return new SteamState(
            density * rt * d * fd,
            t,
            1 / density,
            rt * ((tau * ft) + (d * fd)),
            R * ((tau * ft) - f),
            rt * tau * ft,
            R * ((-tau * tau * ftt) + (cross * cross / stiffness)),
            Math.Sqrt(rt * (stiffness - (cross * cross / (tau * tau * ftt)))),
            3);
    }

    private static SteamState FromGibbs(
        double pressurePa, double t, double pi, double tau, double g, double gp, double gpp, double gt, double gtt, double gpt, int region)
    {
        double rt = R * t;
        double cross = gp - (tau * gpt);
        return new SteamState(
            pressurePa,
            t,
            rt * pi * gp / pressurePa,
            rt * tau * gt,
            R * ((tau * gt) - g),
            rt * ((tau * gt) - (pi * gp)),
            -R * tau * tau * gtt,
            Math.Sqrt(rt * gp * gp / ((cross * cross / (tau * tau * gtt)) - gpp)),
            region);
    }
}
