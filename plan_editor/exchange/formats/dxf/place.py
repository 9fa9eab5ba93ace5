"""Where on the earth the drawing lies: its coordinate system, for programs that ask for it.

The record (GEODATA) is written for the British National Grid only: what programs want to find
in it is known from drawings in that system. Its figures: EPSG dataset, codes 27700 and 7001.
"""

from ezdxf.document import Drawing as Document

from plan_editor.drawing.norths import facts_of, up_told
from plan_editor.plan.plan import Plan

_NATIONAL_GRID = 27700

_DEFINITION = """<?xml version="1.0" encoding="UTF-16" standalone="no" ?>
<Dictionary version="1.0">
<ProjectedCoordinateSystem id="OSGB1936.NationalGrid">
<Name>OSGB1936.NationalGrid</Name>
<DatumId>OSGB1936</DatumId>
<Axis uom="Meter">
<CoordinateSystemAxis>
<AxisOrder>1</AxisOrder><AxisName>Easting</AxisName>
<AxisAbbreviation>E</AxisAbbreviation><AxisDirection>East</AxisDirection>
</CoordinateSystemAxis>
<CoordinateSystemAxis>
<AxisOrder>2</AxisOrder><AxisName>Northing</AxisName>
<AxisAbbreviation>N</AxisAbbreviation><AxisDirection>North</AxisDirection>
</CoordinateSystemAxis>
</Axis>
<Conversion><Projection>
<OperationMethodId>Transverse Mercator</OperationMethodId>
<ParameterValue><OperationParameterId>Longitude of natural origin</OperationParameterId>
<Value uom="degree">-2</Value></ParameterValue>
<ParameterValue><OperationParameterId>Latitude of natural origin</OperationParameterId>
<Value uom="degree">49</Value></ParameterValue>
<ParameterValue><OperationParameterId>Scale factor at natural origin</OperationParameterId>
<Value uom="unity">0.9996012717</Value></ParameterValue>
<ParameterValue><OperationParameterId>False easting</OperationParameterId>
<Value uom="Meter">400000</Value></ParameterValue>
<ParameterValue><OperationParameterId>False northing</OperationParameterId>
<Value uom="Meter">-100000</Value></ParameterValue>
</Projection></Conversion>
</ProjectedCoordinateSystem>
<Alias id="27700" type="CoordinateSystem">
<ObjectId>OSGB1936.NationalGrid</ObjectId><Namespace>EPSG Code</Namespace>
</Alias>
<GeodeticDatum id="OSGB1936">
<Name>OSGB1936</Name><PrimeMeridianId>Greenwich</PrimeMeridianId>
<EllipsoidId>Airy1830</EllipsoidId>
</GeodeticDatum>
<Alias id="6277" type="Datum">
<ObjectId>OSGB1936</ObjectId><Namespace>EPSG Code</Namespace>
</Alias>
<Ellipsoid id="Airy1830">
<Name>Airy1830</Name><SemiMajorAxis uom="meter">6377563.396</SemiMajorAxis>
<SecondDefiningParameter>
<InverseFlattening uom="unity">299.3249646</InverseFlattening>
</SecondDefiningParameter>
</Ellipsoid>
<Alias id="7001" type="Ellipsoid">
<ObjectId>Airy1830</ObjectId><Namespace>EPSG Code</Namespace>
</Alias>
</Dictionary>
"""


def say_where(document: Document, plan: Plan, middle: tuple[float, float]) -> None:
    """Write the coordinate system into the drawing: its name, and its definition if known.

    Where true north lies at the middle of what is drawn, in metres about the plan's origin,
    stands beside it.
    """
    grid = plan.grid
    document.header.custom_vars.append("Coordinate system", grid.crs)
    document.header.custom_vars.append("North", up_told(plan, facts_of(plan, middle)))
    if grid.epsg == _NATIONAL_GRID:
        origin = (grid.east, grid.north)
        document.modelspace().new_geodata().setup_local_grid(
            design_point=origin, reference_point=origin, crs=_DEFINITION
        )
