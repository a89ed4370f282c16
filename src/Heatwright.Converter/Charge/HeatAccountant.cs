// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;
using static Heatwright.Converter.Blow.BlowState;

namespace Heatwright.Converter.Charge;

/// <summary>
/// Works the account out from the balances: what was charged turned into metal elements, slag oxides and gas at hot-metal
/// temperature; what was found in the same terms; the difference is oxidation.
/// </summary>
internal sealed class HeatAccountant
{
    private readonly HeatInput _heat;
    private readonly BlowResult _result;
    private readonly ModelParameters _parameters;
    private readonly double _zeroK;
    private readonly List<(HeatTermKind Kind, string Name, double MJ)> _terms = [];

    // Slag oxides brought by the charge, kg, in slag order, and iron that they give or take.
    private readonly double[] _broughtSlag = new double[SlagCount];
    private double _carbonateKmol;
    private double _mixedIn;
    private double _burntMJ;
    private double _unmoltenJ;

    // Metal charged as such by source, kg by element.
    private readonly double[] _broughtMetal = new double[AtomicWeights.Count];
    private readonly double[] _solidMetal = new double[AtomicWeights.Count];

    public HeatAccountant(HeatInput heat, BlowResult result, ModelParameters parameters)
    {
        _heat = heat;
        _result = result;
        _parameters = parameters;
        _zeroK = heat.HotMetal.TemperatureK;
    }

    public HeatAccount Account()
    {
        EnergyTerms energy = _result.Balance.Account;
        HotMetalAndSlag(energy);
        Scrap();
        Additions();
        double[] foundSlag = Found(out double slagMassCapacity);
        List<OxygenTerm> oxygen = Oxidation(foundSlag);
        SlagFormation();
        Gas(energy);
        Add(HeatTermKind.NotDissolved, "not yet molten or warm", (_unmoltenJ / 1e6) - energy.SolidsMJ);
        Add(HeatTermKind.Dust, "dust and spray", -energy.DustMJ + (DustIronKg() * At(Enthalpies.Dissolved(Element.Fe)) / 1e6));
        Add(HeatTermKind.Lining, "lining", energy.LiningInMJ - energy.LiningMJ - ((foundSlag[MgO] - _broughtSlag[MgO]) * OxideAt(MgO) / 1e6));
        Add(HeatTermKind.Loss, "losses through mouth, lance and shell", -energy.LossMJ);
        return Close(energy, slagMassCapacity, oxygen);
    }

    private void Add(HeatTermKind kind, string name, double mj) => _terms.Add((kind, name, mj));

    private double At((double AtReference, double Slope) line) => line.AtReference + (line.Slope * (_zeroK - Enthalpies.ReferenceK));

    private double OxideAt(int slag) =>
        slag == FeO ? At(IronOxide.Enthalpy(_parameters.FerricShare)) : At(Enthalpies.InSlag(SlagConstituents[slag]));

    private void HotMetalAndSlag(EnergyTerms energy)
    {
        ChargedElements.AddMetal(_broughtMetal, _heat.HotMetal.Analysis, _heat.HotMetal.MassKg);
        double atZero = 0;
        foreach ((SolidAnalysis analysis, double kg) in ((SolidAnalysis, double)[])
            [(_heat.RetainedSlag.Analysis, _heat.RetainedSlag.MassKg), (CarriedSlag.Analysis, _heat.HotMetal.SlagCarryKg)])
        {
            atZero += AddSlag(analysis, kg);
        }

        double lime = _broughtSlag[CaO], silica = _broughtSlag[SiO2], phosphate = _broughtSlag[P2O5];
        double mixed = SlagMixing.Heat(LaneMath.All(lime), LaneMath.All(silica), LaneMath.All(phosphate))[0];
        Add(HeatTermKind.RetainedSlag, "retained and carried-over slag", energy.SlagInMJ - ((atZero + mixed) / 1e6));
        _mixedIn = mixed;
    }

    /// <summary>Books a solid as slag oxides and iron; returns their enthalpy at the zero, J.</summary>
    private double AddSlag(SolidAnalysis analysis, double kg)
    {
        if (kg == 0)
        {
            return 0;
        }

        (double oxide, double iron) = IronOxide.Split(analysis[Constituent.FeO] / 100, analysis[Constituent.Fe2O3] / 100, _parameters.FerricShare);
        double joule = 0;
        Book(FeO, kg * oxide, ref joule);
        for (int i = 1; i < SlagCount; i++)
        {
            Book(i, kg * analysis[SlagConstituents[i]] / 100, ref joule);
        }

        BookIron(kg * iron, ref joule);
        return joule;
    }

    private void Book(int slag, double kg, ref double joule)
    {
        _broughtSlag[slag] += kg;
        joule += kg * OxideAt(slag);
    }

    private void BookIron(double kg, ref double joule)
    {
        _broughtMetal[(int)Element.Fe] += kg;
        joule += kg * At(Enthalpies.Dissolved(Element.Fe));
    }

    private void Scrap()
    {
        for (int k = 0; k < _heat.Scrap.Count; k++)
        {
            ScrapCharge s = _heat.Scrap[k];
            var split = new ScrapSplit(s.Material, _parameters.FerricShare);
            double metallic = s.Material.MetallicShare;
            double joule = 0;
            for (int e = 0; e < _broughtMetal.Length; e++)
            {
                double kg = s.MassKg * metallic * s.Material.Analysis[(Element)e] / 100;
                _broughtMetal[e] += kg;
                joule += kg == 0 ? 0 : kg * At(Enthalpies.Dissolved((Element)e));
            }

            Book(FeO, s.MassKg * split.Slag[FeO], ref joule);
            Book(SiO2, s.MassKg * split.Slag[SiO2], ref joule);
            Book(Al2O3, s.MassKg * split.Slag[Al2O3], ref joule);
            double rustIron = s.MassKg * IronOxide.Split(0, s.Material.RustPercent / 100, _parameters.FerricShare).Iron;
            BookIron(rustIron, ref joule);
            joule += s.MassKg * split.H2OKmol * At(GasLine.H2O);
            _unmoltenJ += s.MassKg > 0 && k < _result.End.ScrapKg.Count ? joule * _result.End.ScrapKg[k] / s.MassKg : 0;
            double cold = s.MassKg * (split.ColdEnthalpy + (Enthalpies.SolidSteelJPerKgK * (s.TemperatureK - HeatInput.AmbientK)));
            if (s.MassKg > 0)
            {
                Add(HeatTermKind.Scrap, s.Material.Name, (cold - joule) / 1e6);
            }

            if (k < _result.End.ScrapKg.Count)
            {
                ChargedElements.AddMetal(_solidMetal, s.Material.Analysis, _result.End.ScrapKg[k] * metallic);
                _solidMetal[(int)Element.Fe] += s.MassKg > 0 ? rustIron * _result.End.ScrapKg[k] / s.MassKg : 0;
            }
        }

        Shell();
    }

    /// <summary>
    /// Metal frozen on scrap: what of carbon, manganese, phosphorus, titanium, vanadium and chromium is solid but not in scrap (no
    /// flux holds them); the rest of it as hot metal; iron makes up its mass.
    /// </summary>
    private void Shell()
    {
        double shellKg = _result.End.ShellKg;
        if (shellKg <= 0)
        {
            return;
        }

        double iron = shellKg;
        for (int e = 0; e < _solidMetal.Length; e++)
        {
            double kg = (Element)e is Element.C or Element.Mn or Element.P or Element.Ti or Element.V or Element.Cr
                ? Math.Max(0, _result.Balance.Elements[e].SolidsKg - _solidMetal[e])
                : (Element)e is Element.Fe ? 0 : shellKg * _heat.HotMetal.Analysis[(Element)e] / 100;
            iron -= kg;
            Freeze(e, kg);
        }

        Freeze((int)Element.Fe, Math.Max(0, iron));
    }

    private void Freeze(int element, double kg)
    {
        _solidMetal[element] += kg;
        _unmoltenJ += kg == 0 ? 0 : kg * At(Enthalpies.Dissolved((Element)element));
    }

    private void Additions()
    {
        foreach (IGrouping<FluxMaterial, Addition> g in _heat.Programme.GivenAdditions.Where(a => a.MassKg > 0).GroupBy(a => a.Material))
        {
            FluxMaterial m = g.Key;
            double kg = g.Sum(a => a.KeptKg);
            var split = new FluxSplit(m, _parameters.FerricShare);
            double joule = 0;
            for (int i = 0; i < SlagCount; i++)
            {
                Book(i, kg * split.Slag[i], ref joule);
            }

            for (int i = 0; i < MetalCount; i++)
            {
                double metal = kg * split.Metal[i];
                _broughtMetal[(int)MetalElements[i]] += metal;
                joule += metal * At(Enthalpies.Dissolved(MetalElements[i]));
            }

            joule += kg * ((split.CO2Kmol * At(GasLine.CO2)) + (split.H2OKmol * At(GasLine.H2O)));
            _carbonateKmol += kg * split.CO2Kmol;
            double total = (kg * split.ColdEnthalpy) - joule;
            double calcination = -kg * CalcinationJPerKg(m);
            if (calcination != 0)
            {
                Add(HeatTermKind.Calcination, m.Name, calcination / 1e6);
            }

            Add(HeatTermKind.Addition, m.Name, (total - calcination) / 1e6);
        }
    }

    /// <summary>CaCO3 → CaO + CO2 and MgCO3 → MgO + CO2 at 25 °C, J/kg of the material.</summary>
    private static double CalcinationJPerKg(FluxMaterial m)
    {
        double carbonDioxide = 1000 * Substances.Get("CO2").Enthalpy(HeatInput.AmbientK);
        double Of(Constituent carbonate, Constituent oxide)
        {
            double kmol = m.Analysis[carbonate] / 100 / Constituents.MolarMass(carbonate);
            return kmol == 0 ? 0 : kmol * ((Enthalpies.AsCharged(oxide) * Constituents.MolarMass(oxide)) + carbonDioxide
                - (Enthalpies.AsCharged(carbonate) * Constituents.MolarMass(carbonate)));
        }

        return Of(Constituent.CaCO3, Constituent.CaO) + Of(Constituent.MgCO3, Constituent.MgO);
    }

    /// <summary>Slag oxides found, liquid and undissolved, kg in slag order; their heat capacity with the liquid metal's.</summary>
    private double[] Found(out double capacityJPerK)
    {
        double[] slag = new double[SlagCount];
        double[] oxides = [.. _result.Balance.Elements.Select(r => r.SlagKg + r.SolidsKg - _solidMetal[(int)r.Element])];
        double sulphur = Math.Max(0, oxides[(int)Element.S]);
        double Oxide(Element e, Constituent c, double kg, int atoms) => kg / atoms / AtomicWeights.Of(e) * Constituents.MolarMass(c);
        slag[CaS] = Oxide(Element.S, Constituent.CaS, sulphur, 1);
        slag[CaF2] = Oxide(Element.F, Constituent.CaF2, oxides[(int)Element.F], 2);
        double calcium = oxides[(int)Element.Ca]
            - (AtomicWeights.Of(Element.Ca) * ((slag[CaS] / Constituents.MolarMass(Constituent.CaS)) + (slag[CaF2] / Constituents.MolarMass(Constituent.CaF2))));
        slag[CaO] = Oxide(Element.Ca, Constituent.CaO, calcium, 1);
        slag[MgO] = Oxide(Element.Mg, Constituent.MgO, oxides[(int)Element.Mg], 1);
        slag[SiO2] = Oxide(Element.Si, Constituent.SiO2, oxides[(int)Element.Si], 1);
        slag[MnO] = Oxide(Element.Mn, Constituent.MnO, oxides[(int)Element.Mn], 1);
        slag[P2O5] = Oxide(Element.P, Constituent.P2O5, oxides[(int)Element.P], 2);
        slag[Al2O3] = Oxide(Element.Al, Constituent.Al2O3, oxides[(int)Element.Al], 2);
        slag[TiO2] = Oxide(Element.Ti, Constituent.TiO2, oxides[(int)Element.Ti], 1);
        slag[V2O3] = Oxide(Element.V, Constituent.V2O3, oxides[(int)Element.V], 2);
        slag[Cr2O3] = Oxide(Element.Cr, Constituent.Cr2O3, oxides[(int)Element.Cr], 2);
        slag[FeO] = oxides[(int)Element.Fe] / AtomicWeights.Of(Element.Fe) * IronOxide.MolarMass(_parameters.FerricShare);
        capacityJPerK = 0;
        for (int i = 0; i < SlagCount; i++)
        {
            double slope = i == FeO ? IronOxide.Enthalpy(_parameters.FerricShare).Slope : Enthalpies.InSlag(SlagConstituents[i]).Slope;
            capacityJPerK += slag[i] * slope;
        }

        return slag;
    }

    /// <summary>
    /// Elements lost from the metal found again as oxides or gas: heat of X dissolved + cold oxygen → product, all at the zero
    /// but the oxygen; and the oxygen that it took.
    /// </summary>
    private List<OxygenTerm> Oxidation(double[] foundSlag)
    {
        var oxygen = new List<OxygenTerm>();
        void Oxide(string name, Element e, int slag, int atoms, double oxygenPerAtom)
        {
            double molar = slag == FeO ? IronOxide.MolarMass(_parameters.FerricShare) : Constituents.MolarMass(SlagConstituents[slag]);
            double formed = foundSlag[slag] - _broughtSlag[slag];
            double element = formed / molar * atoms * AtomicWeights.Of(e);
            Add(HeatTermKind.Oxidation, name, ((element * At(Enthalpies.Dissolved(e))) - (formed * OxideAt(slag))) / 1e6);
            oxygen.Add(new OxygenTerm(name, formed / molar * atoms * oxygenPerAtom / 2 * Molar.NormalM3PerKmol));
        }

        GasTotals gas = _result.Balance.Gas;
        double carbonKg = (gas.CO + gas.CO2 - _carbonateKmol) * AtomicWeights.Of(Element.C);
        double carbonKmol = carbonKg / AtomicWeights.Of(Element.C);
        Add(HeatTermKind.Oxidation, "C to CO", ((carbonKg * At(Enthalpies.Dissolved(Element.C))) - (carbonKmol * At(GasLine.CO))) / 1e6);
        oxygen.Add(new OxygenTerm("C to CO", carbonKmol / 2 * Molar.NormalM3PerKmol));

        // The rest of the CO2 that is not from carbonate comes from steam and CO, a molecule for each of hydrogen.
        double burnt = gas.CO2 - _carbonateKmol - gas.H2;
        _burntMJ = burnt * (At(GasLine.CO) - At(GasLine.CO2)) / 1e6;
        Add(HeatTermKind.Oxidation, "CO to CO2, kept", _burntMJ * _parameters.PostCombustionHeatShare);
        oxygen.Add(new OxygenTerm("CO to CO2", burnt / 2 * Molar.NormalM3PerKmol));
        Oxide("Si", Element.Si, SiO2, 1, 2);
        Oxide("Mn", Element.Mn, MnO, 1, 1);
        Oxide("P", Element.P, P2O5, 2, 2.5);
        Oxide("Fe to slag", Element.Fe, FeO, 1, IronOxide.OxygenPerIron(_parameters.FerricShare));
        Oxide("Ti", Element.Ti, TiO2, 1, 2);
        Oxide("V", Element.V, V2O3, 2, 1.5);
        Oxide("Cr", Element.Cr, Cr2O3, 2, 1.5);
        Oxide("Al", Element.Al, Al2O3, 2, 1.5);
        double dissolvedKg = _result.Balance.Elements[(int)Element.O].MetalKg;
        Add(HeatTermKind.Oxidation, "oxygen dissolved", -dissolvedKg * At(Enthalpies.Dissolved(Element.O)) / 1e6);
        oxygen.Add(new OxygenTerm("dissolved in steel", dissolvedKg / (2 * AtomicWeights.Of(Element.O)) * Molar.NormalM3PerKmol));
        oxygen.Add(new OxygenTerm("O2 in the gas", gas.O2 * Molar.NormalM3PerKmol));
        double blown = _heat.Programme.OxygenNm3 * _heat.Programme.BlownFraction * _heat.Programme.OxygenPurity;
        oxygen.Add(new OxygenTerm("not reaching the bath", blown * (1 - _parameters.OxygenUse)));
        oxygen.Add(new OxygenTerm("other (water, sulphur; less what rust and ore gave)", blown - oxygen.Sum(o => o.Nm3)));
        return oxygen;
    }

    private void SlagFormation()
    {
        // The kernel counts the bond of the liquid slag: lime in lumps is not bound yet.
        double slagKg = _result.End.SlagKg;
        BlowPoint e = _result.End;
        double mixed = SlagMixing.Heat(
            LaneMath.All(slagKg * e.CaO / 100), LaneMath.All(slagKg * e.SiO2 / 100), LaneMath.All(slagKg * e.P2O5 / 100))[0];
        Add(HeatTermKind.SlagFormation, "silicate and phosphate formed", (_mixedIn - mixed) / 1e6);
    }

    private void Gas(EnergyTerms energy)
    {
        GasTotals g = _result.Balance.Gas;
        double atZero = ((g.CO * At(GasLine.CO)) + (g.CO2 * At(GasLine.CO2)) + (g.O2 * At(GasLine.O2)) + (g.H2 * At(GasLine.H2))
            + (g.H2O * At(GasLine.H2O)) + (g.N2 * At(GasLine.N2)) + (g.Ar * At(GasLine.Ar))) / 1e6;
        Add(HeatTermKind.Gas, "gas hotter than the hot metal was", -(energy.GasMJ - atZero) + (_burntMJ * (1 - _parameters.PostCombustionHeatShare)));
        Add(HeatTermKind.Gas, "nitrogen, argon and unused oxygen heated", -((g.N2 * At(GasLine.N2)) + (g.Ar * At(GasLine.Ar)) + (g.O2 * At(GasLine.O2))) / 1e6);
    }

    private double DustIronKg()
    {
        double[] kg = new double[AtomicWeights.Count];
        foreach (Addition a in _heat.Programme.GivenAdditions)
        {
            ChargedElements.AddSolid(kg, a.Material.Analysis, a.FinesKg);
        }

        return _result.Balance.Elements[(int)Element.Fe].DustKg - kg[(int)Element.Fe];
    }

    private HeatAccount Close(EnergyTerms energy, double slagCapacity, List<OxygenTerm> oxygen)
    {
        double metalCapacity = 0;
        foreach (ElementRow row in _result.Balance.Elements.Where(r => r.MetalKg > 0))
        {
            metalCapacity += row.MetalKg * Enthalpies.Dissolved(row.Element).Slope;
        }

        double capacity = (metalCapacity + slagCapacity) / 1e6;
        BlowPoint end = _result.End;
        Add(HeatTermKind.SlagHotter, "slag hotter than metal", -slagCapacity * (end.SlagTemperatureK - end.TemperatureK) / 1e6);
        double wanted = (end.TemperatureK - _zeroK) * capacity;

        double rest = wanted - _terms.Sum(t => t.MJ);
        Add(HeatTermKind.Other, "rest: steam, nitrogen, sulphur, additions still cold", rest);
        HeatTerm[] terms = [.. _terms.Where(t => t.MJ != 0).Select(t => new HeatTerm(t.Kind, t.Name, t.MJ, t.MJ / capacity))];
        return new HeatAccount(_zeroK, energy.HotMetalMJ, capacity, end.TemperatureK, terms, oxygen, Iron());
    }

    private List<IronTerm> Iron()
    {
        double[] scrap = new double[AtomicWeights.Count];
        foreach (ScrapCharge s in _heat.Scrap)
        {
            ChargedElements.AddScrap(scrap, s.Material, s.MassKg);
        }

        ElementRow row = _result.Balance.Elements[(int)Element.Fe];
        double hotMetal = _heat.HotMetal.MassKg * _heat.HotMetal.Analysis[Element.Fe] / 100;
        double inSlags = row.InKg - hotMetal - scrap[(int)Element.Fe];
        return
        [
            new IronTerm("hot metal", hotMetal),
            new IronTerm("scrap with its rust", scrap[(int)Element.Fe]),
            new IronTerm("retained slag, ore and other additions", inSlags),
            new IronTerm("steel", -row.MetalKg),
            new IronTerm("slag as oxide", -row.SlagKg),
            new IronTerm("dust and spray", -row.DustKg),
            new IronTerm("unmolten or undissolved", -row.SolidsKg),
        ];
    }
}
